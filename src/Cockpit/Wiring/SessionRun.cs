using System.Reactive.Concurrency;
using System.Runtime.InteropServices;
using Cockpit.Core.Formats;
using Cockpit.Devices.Clocks;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Speakers;
using Cockpit.Reports;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Views;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>A session that happens now: feeds, clock and keys publish on the bus; journal, fold, voice and screen follow it.</summary>
public sealed class SessionRun
{
    /// <summary>How long the start waits for the first event to be on the disk: without it a session could not be opened again.</summary>
    private static readonly TimeSpan OpeningPatience = TimeSpan.FromSeconds(2);

    /// <summary>The exit code after the terminal went away: 128 + SIGHUP.</summary>
    public const int TerminalGone = 129;

    /// <summary>Without a screen the session goes on until this long after LOS.</summary>
    private static readonly TimeSpan AfterLos = TimeSpan.FromSeconds(10);

    private readonly SessionPlan _plan;
    private readonly TextWriter _output;
    private readonly TextWriter _complaints;
    private readonly LiveFeeds _feeds;
    private readonly Func<Snapshot, IEnumerable<SessionEvent>>? _rehearse;
    private readonly TimeProvider _time = TimeProvider.System;

    /// <summary>Asked at the start, while the terminal is there; with --signal - the input is the signal and must stay.</summary>
    private readonly bool _keysComeFromInput = !Console.IsInputRedirected;
    private volatile bool _inPass;
    private volatile bool _inLines;

    /// <summary>Prepares a session; nothing is opened before <see cref="RunAsync"/>.</summary>
    /// <param name="plan">What is wanted.</param>
    /// <param name="output">For the lines of --plain.</param>
    /// <param name="complaints">For everything else that is printed.</param>
    /// <param name="feeds">Opened already; started once the bus is there, and ended by the session.</param>
    /// <param name="rehearse">A simulated pass that answers each tick's snapshot with events; null in the field.</param>
    public SessionRun(
        SessionPlan plan,
        TextWriter output,
        TextWriter complaints,
        LiveFeeds feeds,
        Func<Snapshot, IEnumerable<SessionEvent>>? rehearse = null)
    {
        _plan = plan;
        _output = output;
        _complaints = complaints;
        _feeds = feeds;
        _rehearse = rehearse;
    }

    /// <summary>Runs the session to its end.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> RunAsync(CancellationToken cancellation)
    {
        using SessionBus bus = new(new SessionClock(_time, _plan.Settings.Speed), _plan.StartUtc);
        if (!SessionFolder.Create(_plan.SessionsFolder, _plan.StartUtc, _plan.Settings.SatelliteName).Try(out SessionFolder? folder, out ParseError? error)
            || !folder.StartJournal(bus, _time, _plan.Settings.ProgramVersion).Try(out JournalWriter? journal, out error))
        {
            await _complaints.WriteLineAsync(error.ToString());
            return Commands.CommandRoot.Failed;
        }

        // A shell hangs up its jobs a second time; the run decides itself what a lost terminal means.
        using PosixSignalRegistration hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, context => context.Cancel = true);
        using PlainFront unseen = new(TextWriter.Null, endOnHangUp: false);
        using SnapshotDigest digest = new();
        Measurements measurements = new(_time);
        using PlainFront lines = new(_output);
        using ISessionFront front = _plan.Plain ? lines : Screen(bus, lines, unseen);
        front.Command = command => OnCommand(bus, command);
        front.Painted = measurements.Painted;
        front.Failed = trouble => bus.Publish(Sources.Program, new PartFailed("screen", trouble));
        Voice voice = new(_time);

        using EventLoopScheduler thread = new(start => new Thread(start) { IsBackground = true, Name = "fold" });
        List<(string, Action<Snapshot>)> observers =
        [
            ("voice", snapshot => voice.Accept(snapshot.Cues)),
            (_plan.Plain ? "lines" : "screen", front.Show),
            ("end", snapshot => EndWhenDone(snapshot, unseen, front)),
        ];
        Add(observers, _plan.Digest, "digest", digest.Add);
        Add(observers, _plan.Measure, "measurement", snapshot => measurements.SnapshotMade(snapshot.Sequence));
        Add(observers, _rehearse is not null, Sources.Rehearsal, new Rehearser(bus, _rehearse).Follow);

        Closing closing = new();
        observers.Add(("closing", closing.Folded));
        using IDisposable closed = bus.Subscribe("closing", closing.Published);
        IDisposable recording = bus.Subscribe("journal", journal.Append);
        IDisposable? arrivals = _plan.Measure ? bus.Subscribe("measurement", envelope => Arrived(measurements, envelope)) : null;
        SnapshotPipeline pipeline = new(bus, bus, thread, observers);
        bus.Publish(Sources.Program, new SessionOpened(_plan.Settings));
        journal.WaitUntilWritten(OpeningPatience);

        ISpeaker speaker = SpeakerBox.Open(SoundChoice.Read(_plan.Sound, "--sound").Value, voice, bus, front.Bell, _time);
        _feeds.Start(bus, _time);
        TickSource ticks = new(bus, _time);

        int code = front.Run(_plan.EndAfter, cancellation);
        await ticks.DisposeAsync();
        await _feeds.DisposeAsync();

        bus.Publish(Sources.Program, new SessionClosed(code == 0 ? "left by the operator" : $"ended with code {code}"));
        await closing.WaitAsync();
        pipeline.Dispose();
        arrivals?.Dispose();
        recording.Dispose();
        await journal.DisposeAsync();
        await speaker.DisposeAsync();
        front.Dispose();
        await ReportAsync(journal.Outcome.Sentence(folder.Path), folder, digest, measurements);
        return code == 0 && !journal.Outcome.IsWhole ? Commands.CommandRoot.Failed : code;
    }

    /// <summary>The screen, and what goes on in its place when it is lost in the middle of a pass.</summary>
    private EnduringFront Screen(SessionBus bus, PlainFront lines, PlainFront unseen)
    {
        ScreenFront screen = new(new ScreenOptions { Theme = _plan.Theme, Complaints = _complaints });
        return new EnduringFront(screen, code =>
        {
            if (_inPass && screen.Broken)
            {
                bus.Publish(Sources.Program, new PartFailed("screen", "the screen failed; guidance goes on in lines, sound and recording too"));
                _inLines = true;
                return lines;
            }

            if (!_inPass || code != TerminalGone || !StandardInput.TerminalIsGone())
            {
                return null;
            }

            if (_keysComeFromInput)
            {
                StandardInput.ReplaceBySilence();
            }

            bus.Publish(Sources.Program, new PartFailed("screen", "the terminal is gone; sound and recording go on until the pass is over"));
            return unseen;
        });
    }

    private static void Add(List<(string, Action<Snapshot>)> observers, bool wanted, string part, Action<Snapshot> show)
    {
        if (wanted)
        {
            observers.Add((part, show));
        }
    }

    private static void OnCommand(SessionBus bus, ScreenCommand command)
    {
        if (command is OperatorCommand said)
        {
            bus.Publish(Sources.Keys, new OperatorPressed(said.Key));
        }
    }

    private static void Arrived(Measurements measurements, Envelope envelope)
    {
        if (envelope.Event is SignalMeasured measured)
        {
            measurements.Arrived(envelope.Sequence, measured.Sample.Utc);
        }
    }

    private void EndWhenDone(Snapshot snapshot, PlainFront unseen, ISessionFront front)
    {
        _inPass = snapshot.Sky?.Phase is PassPhase.Ready or PassPhase.Climbing or PassPhase.Sinking;
        if (snapshot.Sky is { } sky && snapshot.Utc >= sky.Pass.Los.Utc + AfterLos)
        {
            unseen.Stop(0);
            if (_inLines)
            {
                front.Stop(0);
            }
        }
    }

    // From the journal, as any later review: what is told here is what will be told again.
    private static IEnumerable<string> Review(SessionFolder folder) =>
        Recording.ReadAll(folder.Path).Try(out Recording? recording, out _) && ReviewRecorder.Of(recording.Envelopes) is { } review
            ? ReviewSummary.Lines(review, brief: true)
            : [];

    private async Task ReportAsync(string lastWord, SessionFolder folder, SnapshotDigest digest, Measurements measurements)
    {
        List<string> lines = [lastWord, .. Review(folder)];
        if (_plan.Digest)
        {
            lines.Add($"digest {digest.Current()} of {digest.Count} snapshots");
        }

        if (_plan.Measure)
        {
            lines.AddRange(measurements.Report());
        }

        try
        {
            foreach (string line in lines)
            {
                await _complaints.WriteLineAsync(line);
            }
        }
        catch (IOException)
        {
            // The terminal is gone: nobody is left to tell, and the session is complete on the disk.
        }
    }

    /// <summary>Knows when the fold has taken the last event, so that digest and screen end where the journal ends.</summary>
    private sealed class Closing
    {
        private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
        private readonly TaskCompletionSource _done = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private long _last = long.MaxValue;

        public void Published(Envelope envelope)
        {
            if (envelope.Event is SessionClosed)
            {
                Interlocked.Exchange(ref _last, envelope.Sequence);
            }
        }

        public void Folded(Snapshot snapshot)
        {
            if (snapshot.Sequence >= Interlocked.Read(ref _last))
            {
                _done.TrySetResult();
            }
        }

        public async Task WaitAsync() =>
            await Task.WhenAny(_done.Task, Task.Delay(Patience, TimeProvider.System, CancellationToken.None));
    }

    /// <summary>Lets the simulated pass answer each tick.</summary>
    private sealed class Rehearser(SessionBus bus, Func<Snapshot, IEnumerable<SessionEvent>>? rehearse)
    {
        private TimeSpan _next;

        public void Follow(Snapshot snapshot)
        {
            if (snapshot.Elapsed < _next || rehearse is null)
            {
                return;
            }

            _next = snapshot.Elapsed + (TickSource.Period * 0.9);
            foreach (SessionEvent happened in rehearse(snapshot))
            {
                bus.Publish(happened is OperatorPressed ? Sources.Keys : Sources.Rehearsal, happened);
            }
        }
    }
}
