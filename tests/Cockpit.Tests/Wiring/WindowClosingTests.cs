using Cockpit.Wiring;

namespace Cockpit.Tests.Wiring;

public sealed class WindowClosingTests
{
    [Fact]
    public async Task A_closed_window_is_answered_when_the_session_is_whole()
    {
        TaskCompletionSource asked = new(TaskCreationOptions.RunContinuationsAsynchronously);
        WindowClosing window = WindowClosing.Watch();
        window.Stop = asked.SetResult;
        Task<bool> answer = Task.Run(window.Answer);
        await asked.Task;
        Assert.False(answer.IsCompleted);

        window.Dispose();
        Assert.True(await answer);
    }

    [Fact]
    public void After_the_end_a_closed_window_is_answered_at_once()
    {
        WindowClosing window = WindowClosing.Watch();
        window.Dispose();
        Assert.True(window.Answer());
    }
}
