using System.Collections.Concurrent;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A rig server in this process that answers as a test wants; a null answer never comes, an empty one closes the connection.</summary>
internal sealed class RigServer(Func<string, string?> respond) : LoopbackServer(respond)
{
    /// <summary>All commands, in order.</summary>
    public ConcurrentQueue<string> Commands { get; } = new();

    protected override async Task ServeAsync(StreamReader questions, Stream answers, CancellationToken stop)
    {
        while (await questions.ReadLineAsync(stop) is { } command)
        {
            Commands.Enqueue(command);
            string? answer = Respond(command);
            if (answer is { Length: 0 })
            {
                return;
            }

            await answers.WriteAsync(Encoding.ASCII.GetBytes(answer ?? ""), stop);
        }
    }
}
