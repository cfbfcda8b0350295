using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Reactive.Concurrency;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>A session of the past: its events enter the bus where the feeds did, so screen and voice do what they did then.</summary>
/// <param name="recording">The session.</param>
/// <param name="options">How the screen is set up.</param>
/// <param name="sound">Where the cues are heard.</param>
/// <param name="speech">Spoken words; null where tones are wanted.</param>
/// <param name="rate">Rate at the start.</param>
public sealed class ReplaySession(Recording recording, ScreenOptions options, SoundChoice sound, SpeechClips? speech, double rate)
{
    private static readonly TimeSpan StatusPeriod = TimeSpan.FromMilliseconds(200);

    /// <summary>Plays until the operator leaves.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> RunAsync(CancellationToken cancellation)
    {
        AsideSink aside = new();
        int code = await PlayAsync(aside, cancellation);
        foreach (string trouble in aside.Troubles)
        {
            await options.Complaints.WriteLineAsync(Core.Formats.TextFilter.Clean(trouble));
        }

        return code;
    }

    private async Task<int> PlayAsync(AsideSink aside, CancellationToken cancellation)
    {
        TimeProvider time = TimeProvider.System;
        using SessionBus bus = new(new StoppedClock(), recording.Envelopes[0].Utc);
        using EventLoopScheduler thread = new(start => new Thread(start) { IsBackground = true, Name = "fold" });
        using ScreenFront front = new(options);
        Voice voice = new(time, speech);
        JumpSilence silence = new();
        bool shown = false;

        // Where not one moment can be computed there is nothing to look at, and the sentence is worth more than an empty screen.
        aside.OnFailure = failed =>
        {
            if (!shown && string.Equals(failed.Part, "computation", StringComparison.Ordinal))
            {
                front.Stop(Commands.CommandRoot.Failed);
            }
        };
        using SnapshotPipeline pipeline = new(
            bus, aside, thread, [new("voice", Shown: snapshot => voice.Accept(silence.Heard(snapshot.Cues))), new("screen", Shown: Show)]);
        await using ISpeaker speaker = SpeakerFactory.Open(sound, voice, aside, front.Bell, time);

        // A jump back plays from the first event again, and the first event starts the fold afresh: nothing else is to be done.
        using Player player = new(recording.Envelopes, time, Play, static () => { });
        player.Rate = rate;
        front.Failed = trouble => aside.Publish(Sources.Program, new PartFailed("screen", trouble));
        ReplayDesk desk = new(player, silence, front.Say);
        front.KeyPressed = desk.OnKey;
        using ITimer status = time.CreateTimer(_ => front.ShowPlayer(desk.Now), null, TimeSpan.Zero, StatusPeriod);
        player.Resume();

        // The session is looked through beside the screen, which does not wait for it.
        using CancellationTokenSource left = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        Task looking = Task.Run(() => LookThrough(desk, front, left.Token), CancellationToken.None);
        int code = front.Run(null, cancellation);
        await left.CancelAsync();
        await FinishAsync(looking, aside);
        return code;

        void Show(Snapshot snapshot)
        {
            shown = true;
            front.Show(snapshot);
        }

        void Play(Envelope envelope)
        {
            silence.Played();
            bus.Replay(envelope);
        }
    }

    private void LookThrough(ReplayDesk desk, ScreenFront front, CancellationToken left)
    {
        (ImmutableArray<Milestone> stops, SessionReview? review) = MilestoneFinder.Of(recording.Envelopes, left);
        desk.Take(stops);
        if (review is not null)
        {
            front.ShowReview(review);
        }
    }

    private static async Task FinishAsync(Task looking, AsideSink aside)
    {
        try
        {
            await looking;
        }
#pragma warning disable CA1031 // The time line is worth less than the replay; what failed in it is told.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            aside.Publish(Sources.Program, new PartFailed("time line", failure.Message.ReplaceLineEndings(" ")));
        }
    }

    /// <summary>Nothing is dated in a replay: every event brings its time.</summary>
    private sealed class StoppedClock : ISessionClock
    {
        public TimeSpan Elapsed => TimeSpan.Zero;
    }

    /// <summary>What happens to the devices of the replay is no part of the session; what failed is told after the screen.</summary>
    private sealed class AsideSink : IEventSink
    {
        private readonly ConcurrentQueue<string> _troubles = new();

        public IEnumerable<string> Troubles => _troubles;

        public Action<PartFailed>? OnFailure { get; set; }

        public void Publish(string source, SessionEvent sessionEvent)
        {
            if (sessionEvent is PartFailed failed)
            {
                _troubles.Enqueue($"{failed.Part} failed in the replay: {failed.Trouble}");
                OnFailure?.Invoke(failed);
            }
        }
    }
}
