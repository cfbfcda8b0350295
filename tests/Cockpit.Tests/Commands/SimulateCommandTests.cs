namespace Cockpit.Tests.Commands;

public sealed class SimulateCommandTests
{
    [Theory]
    [InlineData("simulate signal: say where the lines go: either --listen tcp://:PORT or --to ADDRESS")]
    [InlineData("simulate signal: say where the lines go: either --listen tcp://:PORT or --to ADDRESS", "--listen", "tcp://:5010", "--to", "-")]
    [InlineData("--listen: 'udp://:5010' cannot be listened at; write tcp://:PORT", "--listen", "udp://:5010")]
    [InlineData("--listen: 'x' is not a port; write a number from 1 to 65535", "--listen", "tcp://:x")]
    [InlineData("--to: 'tcp-listen://:5010' cannot be sent to; to be connected to, use --listen tcp://:PORT", "--to", "tcp-listen://:5010")]
    [InlineData("--station: the pass needs a place: give --station LAT,LON", "--to", "-", "--elements", "any.tle")]
    public async Task Wrong_words_are_told_in_one_sentence(string sentence, params string[] words)
    {
        CommandRun run = await CommandRun.Of(["simulate", "signal", .. words]);
        Assert.Equal((2, "", sentence + "\n"), (run.ExitCode, run.Output, run.Error));
    }

    [Theory]
    [InlineData("--stall: '5s' does not say how often and how long; write it like 60s,5s, the second shorter", "--stall", "5s")]
    [InlineData("--away: '5s,60s' does not say how often and how long; write it like 60s,5s, the second shorter", "--away", "5s,60s")]
    [InlineData("--rate: '0' is not a number from 0.1 to 1000", "--rate", "0")]
    [InlineData("--rubbish: '2' is not a number from 0 to 1", "--rubbish", "2")]
    public async Task A_wrong_value_is_told_in_one_sentence(string sentence, params string[] words)
    {
        CommandRun run = await CommandRun.Of(["simulate", "signal", "--to", "-", .. words]);
        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith(sentence, run.Error, StringComparison.Ordinal);
    }
}
