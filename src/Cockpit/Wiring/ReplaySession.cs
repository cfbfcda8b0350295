using System.Collections.Concurrent;
using System.Reactive.Concurrency;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
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
        front.KeyPressed = action => OnKey(player, silence, action);
        using ITimer status = time.CreateTimer(
            _ => front.ShowPlayer(new PlayerNow(player.Rate, player.IsPaused, player.Position, player.Length)), null, TimeSpan.Zero, StatusPeriod);
        player.Resume();
        return front.Run(null, cancellation);

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

    private static void OnKey(Player player, JumpSilence silence, KeyAction action)
    {
        if (action is not PlayerAction wanted)
        {
            return;
        }

        switch (wanted.Verb)
        {
            case PlayerVerb.Pause when player.IsPaused:
                player.Resume();
                break;
            case PlayerVerb.Pause:
                player.Pause();
                break;
            case PlayerVerb.Faster:
                player.Rate = Math.Min(Player.FastestRate, player.Rate * 2);
                break;
            case PlayerVerb.Slower:
                player.Rate = Math.Max(Player.SlowestRate, player.Rate / 2);
                break;
            case PlayerVerb.Jump:
                TimeSpan target = player.Position + wanted.By;
                silence.During(() => player.JumpTo(target < TimeSpan.Zero ? TimeSpan.Zero : target > player.Length ? player.Length : target));
                break;
            case PlayerVerb.ToStart:
                silence.During(() => player.JumpTo(TimeSpan.Zero));
                break;
            default:
                silence.During(() => player.JumpTo(player.Length));
                break;
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
