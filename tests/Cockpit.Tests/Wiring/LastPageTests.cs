using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Session.State;
using Cockpit.Tests.Screen;
using Cockpit.Wiring;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Wiring;

public sealed class LastPageTests : IEventSink
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    private readonly FakeTimeProvider _time = new();
    private readonly TaskCompletionSource<SessionReview> _shown = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource<string> _failed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    void IEventSink.Publish(string source, SessionEvent sessionEvent) => _failed.TrySetResult(((PartFailed)sessionEvent).Trouble);

    private static Snapshot Over => Moment.At(820);

    [Fact]
    public async Task After_the_pass_it_shows_what_a_later_review_would_say()
    {
        await using LastPage page = new(Sample, review => _shown.TrySetResult(review), this, _time);
        page.Follow(Over);
        _time.Advance(TimeSpan.FromSeconds(2));
        SessionReview shown = await _shown.Task.WaitAsync(TimeSpan.FromSeconds(60));
        Assert.True(Recording.ReadAll(Sample).Try(out Recording? recording, out _));
        Assert.Equal(ReviewRecorder.Of(recording.Envelopes)!.Lines, shown.Lines);
    }

    [Fact]
    public async Task In_the_pass_it_does_nothing()
    {
        await using LastPage page = new(Sample, review => _shown.TrySetResult(review), this, _time);
        page.Follow(Moment.At(200));
        _time.Advance(TimeSpan.FromMinutes(2));
        Assert.False(_shown.Task.IsCompleted);
        Assert.False(_failed.Task.IsCompleted);
    }

    [Fact]
    public async Task A_journal_that_is_gone_is_told_and_nothing_else_happens()
    {
        await using LastPage page = new(Path.Combine(Sample, "gone"), review => _shown.TrySetResult(review), this, _time);
        page.Follow(Over);
        _time.Advance(TimeSpan.FromSeconds(2));
        Assert.Contains("there is no such session", await _failed.Task.WaitAsync(TimeSpan.FromSeconds(60)), StringComparison.Ordinal);
    }
}
