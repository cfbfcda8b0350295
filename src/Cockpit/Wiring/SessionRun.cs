using System.Reactive.Concurrency;
using System.Runtime.InteropServices;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
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
    private volatile ClockNow? _clock;
    private SteadyTime? _steady;
    private PhoneDoor? _pairing;
    private WindowClosing? _window;

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

    /// <summary>The pass that the operator chose in place of this one, from 0; null while there is none. The session has ended then.</summary>
    public int? Chosen { get; private set; }

    /// <summary>Runs the session to its end; whatever was begun ends in order, also when a part of it throws.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> RunAsync(CancellationToken cancellation)
    {
        await using LiveFeeds feeds = _feeds;

        // Between the reading of the options and here lies what a slow disk or a speech program took.
        _steady = new SteadyTime(_time);
        DateTimeOffset start = _plan.StartsNow ? _steady.Begun : _plan.StartUtc;
        using SessionBus bus = new(new SessionClock(_time, _plan.Settings.Speed), start);
        if (!SessionFolder.Create(_plan.SessionsFolder, start, _plan.Settings.SatelliteName).Try(out SessionFolder? folder, out ParseError? error)
            || !folder.StartJournal(bus, _time, _plan.Settings.ProgramVersion).Try(out JournalWriter? journal, out error))
        {
            await _complaints.WriteLineAsync(error.ToString());
            return Commands.CommandRoot.Failed;
        }

        SnapshotDigest digest = new();
        Measurements measurements = new(_time);
        using WindowClosing window = _window = WindowClosing.Watch();
        int code;
        await using (journal)
        {
            code = await FollowAsync(bus, folder, journal, digest, measurements, cancellation);
        }

        if (feeds.KeepPicture(folder.Path) is { } lost)
        {
            await _complaints.WriteLineAsync(lost);
        }

        if (Chosen is not null)
        {
            return code;
        }

        await ReportAsync(journal.Outcome.Sentence(folder.Path), folder, digest, measurements);
        return code == 0 && !journal.Outcome.IsWhole ? Commands.CommandRoot.Failed : code;
    }

    private async Task<int> FollowAsync(SessionBus bus, SessionFolder folder, JournalWriter journal, SnapshotDigest digest, Measurements measurements, CancellationToken cancellation)
    {
        // A shell hangs up its jobs a second time; the run decides itself what a lost terminal means. The screen's loop spins on a
        // terminal that is gone and may never come to see that it was stopped, so it is given silence at once.
        using PosixSignalRegistration hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, context =>
        {
            context.Cancel = true;
            if (_keysComeFromInput && StandardInput.TerminalIsGone())
            {
                StandardInput.ReplaceBySilence();
            }
        });
        using PlainFront unseen = new(TextWriter.Null, endOnHangUp: false);
        using PlainFront lines = new(_output);
        using ISessionFront front = MakeFront(bus, lines, unseen, measurements);
        _window?.Stop = () => front.Stop(TerminalGone);
        Voice voice = new(_time, _plan.Speech);
        Closing closing = new(bus);
        await using LastPage lastPage = new(folder.Path, front.ShowReview, bus, _time);
        List<SessionPart> parts =
        [
            closing.First,
            new("journal", Happened: journal.Append),
            new("voice", Shown: snapshot => voice.Accept(snapshot.Cues)),
            new(_plan.Plain ? "lines" : "screen", Shown: front.Show),
            new("end", Shown: snapshot => EndWhenDone(snapshot, unseen, front)),
            new("review", Shown: lastPage.Follow),
            .. Wanted(bus, digest, measurements),
            closing.Last,
        ];

        // What is begun last ends first: ticks, feeds, the order of events itself, sound, the fold; then the journal, which has all of it.
        using EventLoopScheduler thread = new(start => new Thread(start) { IsBackground = true, Name = "fold" });
        using SnapshotPipeline pipeline = new(bus, bus, thread, parts);
        bus.Publish(Sources.Program, new SessionOpened(_plan.Settings));
        journal.WaitUntilWritten(OpeningPatience);
        await using ISpeaker speaker = SpeakerFactory.Open(_plan.Sound, voice, bus, front.Bell, _time);
        await using Closing end = closing;
        await using LiveFeeds feeds = _feeds;
        feeds.Start(bus, _time);
        if (feeds.Phone is { } phone)
        {
            _pairing = new PhoneDoor(phone, front.ShowPairing, _plan.Plain);
        }

        await using ServerClock? clock = _plan is { StartsNow: true, Clock: { } server } ? new ServerClock(server, bus, _steady ?? _time) : null;
        await using TickSource ticks = new(bus, _time);
        int code = front.Run(_plan.EndAfter, cancellation);
        end.Code = code;
        end.Left = Chosen is not null;
        return code;
    }

    private ISessionFront MakeFront(SessionBus bus, PlainFront lines, PlainFront unseen, Measurements measurements)
    {
        ISessionFront front = _plan.Plain ? lines : Screen(bus, lines, unseen);
        front.KeyPressed = action => OnKey(bus, front, action);
        front.Painted = measurements.Painted;
        front.Failed = trouble => bus.Publish(Sources.Program, new PartFailed("screen", trouble));
        return front;
    }

    /// <summary>The parts that follow only when they are asked for.</summary>
    private IEnumerable<SessionPart> Wanted(SessionBus bus, SnapshotDigest digest, Measurements measurements)
    {
        if (_plan.Digest)
        {
            yield return new("digest", Shown: digest.Add);
        }

        if (_plan.Measure)
        {
            yield return new("measurement", envelope => Arrived(measurements, envelope), snapshot => measurements.SnapshotMade(snapshot.Sequence));
        }

        if (_plan is { StartsNow: true, Settings.Speed: 1.0 })
        {
            yield return new("clock of the feeds", Happened: new StampClock(bus).Follow);
        }

        if (_plan.Settings.Kind == SessionKind.Live)
        {
            yield return new("disk", Shown: new DiskWatch(bus, _plan.RecordingFolder ?? _plan.SessionsFolder, _plan.NeededBytes, _time).Follow);
        }

        DirectionDesk directions = new(bus);
        yield return new("known directions", directions.Happened, directions.Follow);

        if (_feeds.Tuner is { } tuner)
        {
            yield return new(tuner.Name, Shown: snapshot => tuner.Want(TuningOf(snapshot)));
        }

        if (_feeds.Marks is { } marks)
        {
            yield return new("notes of the recording", Shown: new RecordingNotes(marks).Follow);
        }

        if (_feeds.Phone is { } phone)
        {
            yield return new(phone.Name, Shown: new PhoneGuide(phone).Follow);
        }

        if (_rehearse is { } rehearse)
        {
            yield return new(Sources.Rehearsal, Shown: new Rehearser(bus, rehearse).Follow);
        }
    }

    /// <summary>Where the carrier is received now; null while there is no reason to tune.</summary>
    private Frequency? TuningOf(Snapshot snapshot) =>
        snapshot is { Sky.Phase: PassPhase.Ready or PassPhase.Climbing or PassPhase.Sinking, Link.Doppler: { } shift } ? _plan.Settings.Downlink + shift : null;

    /// <summary>The screen, and what goes on in its place when it is lost in the middle of a pass.</summary>
    private EnduringFront Screen(SessionBus bus, PlainFront lines, PlainFront unseen)
    {
        ScreenFront screen = new(new ScreenOptions { Theme = _plan.Theme, Drawing = _plan.Drawing, Complaints = _complaints, TerminalIsGone = StandardInput.TerminalIsGone });
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

    private void OnKey(SessionBus bus, ISessionFront front, KeyAction action)
    {
        if (action is ChooseAction choice)
        {
            Chosen = choice.Index;
            front.Stop(0);
            return;
        }

        if (action is PairAction)
        {
            _pairing?.Toggle();
        }

        if (action is TurnAction turn && _plan.Settings.KeysSteer)
        {
            bus.Publish(Sources.Keys, new HeadTurned(Angle.FromDegrees(turn.Pan * turn.StepDegrees), Angle.FromDegrees(turn.Tilt * turn.StepDegrees)));
        }

        if (action is not OperatorAction said)
        {
            return;
        }

        bus.Publish(Sources.Keys, new OperatorPressed(said.Key));
        if (said.Key == OperatorKey.CorrectClock && _clock is { CanBeCorrected: true } clock)
        {
            _clock = null;
            bus.Publish(Sources.Clock, new ClockCorrected(clock.Behind, $"by {clock.Against}, as the operator asked"));
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
        _clock = snapshot.Desk.Clock;
        _inPass = snapshot.Sky?.Phase is PassPhase.Ready or PassPhase.Climbing or PassPhase.Sinking;
        if (snapshot.Sky is { } sky && snapshot.Utc >= sky.Pass.Los.Utc + AfterLos)
        {
            unseen.Stop(0);
            if (_inLines || _plan.EndsWithPass)
            {
                front.Stop(0);
            }
        }
    }

    // From the journal, as any later review: what is told here is what will be told again.
    private static IEnumerable<string> Review(SessionFolder folder) =>
        KeptReview.Of(folder.Path).Try(out KeptReview? kept, out _) && kept.Log is { } log && Reviewer.Make(log) is { } review
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
            lines.AddRange(measurements.Report(_feeds.Phone?.Server?.Timings?.SentToDrawn ?? []));
            lines.AddRange(new[] { _feeds.SampleCounts() }.OfType<string>());
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
}
