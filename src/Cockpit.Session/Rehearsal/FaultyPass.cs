using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>A whole simulated session in which things go wrong on purpose, with the truth of what was lost and why: to try the review.</summary>
/// <param name="Envelopes">The events of the session, as a journal would hold them.</param>
/// <param name="Truth">One for each tenth of a second from the first on.</param>
/// <param name="From">The moment of the first, UTC.</param>
/// <param name="Log">What a review gathers of these events, as it does from a journal.</param>
/// <param name="Faults">What was made to go wrong.</param>
public sealed record FaultyPass(
    ImmutableArray<Envelope> Envelopes, ImmutableArray<LineTruth> Truth, DateTimeOffset From, ReviewLog Log, ImmutableArray<Fault> Faults)
{
    private const double BeforeRiseSeconds = 70.0;
    private const double AfterSetSeconds = 8.0;
    private const double FoundWidths = 0.3;
    private const double BackSeconds = 2.0;
    private const double SearchDays = 6.0;
    private const double LowestHighDegrees = 18.0;

    /// <summary>Lines lost, by the truth.</summary>
    public double LinesLost => Truth.Count(t => t.Cause is not null) * SimulatedReceiver.Step.TotalSeconds * LineLedger.LinesPerSecond;

    /// <summary>Flies one pass.</summary>
    /// <param name="seed">Chooses the pass, the faults, the weather and the hand.</param>
    public static FaultyPass Fly(ulong seed) => Fly(seed, null);

    /// <summary>Flies one pass in which chosen things go wrong.</summary>
    /// <param name="seed">Chooses the pass, the weather and the hand.</param>
    /// <param name="chosen">What goes wrong, in this order; empty = nothing; null = by the seed too.</param>
    public static FaultyPass Fly(ulong seed, ImmutableArray<FaultKind>? chosen)
    {
        var chance = new Xoshiro256(seed, 7);
        Demo demo = Demo.Of(seed, "");
        ElementSet elements = Demo.Elements;
        Pass[] passes =
        [
            .. PassSearch.Find(new SatelliteTrack(new Sgp4(elements), demo.Settings.Station), demo.StartUtc, demo.StartUtc.AddDays(SearchDays), demo.Settings.MinimumElevation)
                .Where(p => p.Aos.Utc > demo.StartUtc.AddMinutes(5) && p.Tca.Look.Elevation.Degrees > LowestHighDegrees), // one that runs already is cut
        ];
        Pass pass = passes[(int)(chance.NextUnit() * passes.Length)];
        ImmutableArray<Fault> faults = chosen is { } kinds ? ChosenFaults.Of(pass, kinds, chance) : FaultPlan.Of(pass, chance);
        bool weak = faults.Any(f => f.Kind == FaultKind.Weak);
        SessionSettings settings = demo.Settings with { DishDiameterMetres = weak ? 0.6 : 0.8, Seed = seed };
        return new Flight(pass, settings, new SatelliteTrack(new Sgp4(elements), settings.Station), faults, chance).Run();
    }

    private sealed class Flight
    {
        private readonly Pass _pass;
        private readonly SessionSettings _settings;
        private readonly ImmutableArray<Fault> _faults;
        private readonly SimulatedReceiver _receiver;
        private readonly SimulatedDish _dish;
        private readonly FaultyHand _hand;
        private readonly Beam _beam;
        private readonly ITrack _track;
        private readonly Xoshiro256 _chance;
        private readonly DateTimeOffset _opened;
        private readonly Fold _fold = new();
        private readonly ReviewRecorder _recorder = new();
        private readonly List<Envelope> _envelopes = [];
        private readonly List<LineTruth> _truth = [];
        private readonly List<OperatorKey> _keys = [];
        private double _frames;
        private bool _lost;
        private FaultKind? _struck;
        private int _good;

        public Flight(Pass pass, SessionSettings settings, ITrack track, ImmutableArray<Fault> faults, Xoshiro256 chance)
        {
            _pass = pass;
            _settings = settings;
            _faults = faults;
            _track = track;
            _chance = chance;
            _opened = pass.Aos.Utc - TimeSpan.FromSeconds(BeforeRiseSeconds);
            _beam = Beam.Of(settings.DishDiameterMetres, settings.Downlink);
            ulong seed = settings.Seed ?? 1;
            _receiver = new SimulatedReceiver(track, _beam, settings.DishDiameterMetres, seed, FaultPlan.Obstructions(faults, pass));
            _dish = new SimulatedDish(seed);
            _hand = new FaultyHand(_dish, chance, faults, _keys.Add);
        }

        public FaultyPass Run()
        {
            Snapshot snapshot = Fold(_opened, Sources.Program, new SessionOpened(_settings));
            double error = Has(FaultKind.NotFound) ? 22.0 : 2.0;
            _dish.HeadAzimuth = _pass.Aos.Look.Azimuth.Degrees + (error * (_chance.NextUnit() < 0.5 ? 1.0 : -1.0));
            _dish.HeadElevation = _pass.Aos.Look.Elevation.Degrees + 1.0;
            snapshot = Fold(_opened.AddSeconds(0.5), Sources.Keys, new OperatorPressed(OperatorKey.Moved));
            int steps = (int)((BeforeRiseSeconds + _pass.Duration.TotalSeconds + AfterSetSeconds) / SimulatedReceiver.Step.TotalSeconds);
            for (int i = 10; i < steps; i++)
            {
                DateTimeOffset utc = _opened + (SimulatedReceiver.Step * i);
                double now = (utc - _pass.Aos.Utc).TotalSeconds;
                snapshot = Fold(utc, Sources.Clock, new Ticked());
                snapshot = Measure(utc, now) is { } sample ? Fold(utc, Sources.Signal, new SignalMeasured(Sources.Signal, sample)) : snapshot;
                _hand.Step(now, snapshot);
                foreach (OperatorKey key in _keys)
                {
                    snapshot = Fold(utc, Sources.Keys, new OperatorPressed(key));
                }

                _keys.Clear();
            }

            ReviewLog log = _recorder.Log() ?? throw new InvalidOperationException("a session that was opened has a log");
            return new FaultyPass([.. _envelopes], [.. _truth], _pass.Aos.Utc, log, _faults);
        }

        private SignalSample? Measure(DateTimeOffset utc, double now)
        {
            _dish.Step();
            SignalSample sample = _receiver.Measure(utc, _dish.Azimuth, _dish.Elevation);
            bool silent = During(FaultKind.FeedSilent, now);
            bool stopped = During(FaultKind.RecorderStopped, now);
            bool clipping = During(FaultKind.Overload, now);
            bool good = !_receiver.LineLost && !silent && !stopped && !clipping;
            _frames += good ? LineLedger.LinesPerSecond * SimulatedReceiver.Step.TotalSeconds : 0.0;
            Settle();
            Acquit(utc);
            if (now >= 0.0 && utc < _pass.Los.Utc)
            {
                GapCause? why = good ? null : Why(now, silent, stopped, clipping);
                _truth.Add(new LineTruth(why, SpareDb(), why is not GapCause.OffAim || _hand.Wrong == FaultKind.Knock));
            }

            return silent ? null : sample with
            {
                Frames = (long)_frames,
                Clipped = clipping ? 0.04 : 0.0,
                Locked = clipping ? false : sample.Locked,
                SnrDb = clipping ? Math.Round((sample.SnrDb ?? 0.0) - 3.0, 2) : sample.SnrDb,
            };
        }

        // The aim is well again once the satellite is near the axis and no late nudge is due.
        private void Settle()
        {
            bool late = _hand is { Wrong: FaultKind.Late, Waiting: true };
            // A fault is to blame for the gap that it makes, not for what comes after the picture was back.
            _struck = _hand.Wrong is { } wrong && (_receiver.LineLost || _struck == wrong) ? wrong : null;
            _good = _receiver.LineLost ? 0 : _good + 1;
            if (_struck is not null && _good * SimulatedReceiver.Step.TotalSeconds > BackSeconds && !late)
            {
                _hand.Wrong = null;
            }

            if (_receiver.OffAxis is { } off && off / _beam.HalfPowerWidth < FoundWidths && !late && !(_hand.Wrong is FaultKind.WrongWay or FaultKind.Amount && _hand.Waiting))
            {
                _hand.Wrong = null;
            }
        }

        // A fault is to blame only where the line would have come without it: a nudge that was called amiss is lost with a good hand too.
        private void Acquit(DateTimeOffset utc)
        {
            bool begins = _receiver.LineLost && !_lost;
            _lost = _receiver.LineLost;
            bool blamed = _hand.Wrong is FaultKind.Late or FaultKind.Amount or FaultKind.WrongWay or FaultKind.Knock;
            if (!begins || !blamed || !_hand.Untouched || _track.At(utc) is not { } look || _receiver.OffAxis is not { } off)
            {
                return;
            }

            (double pan, double tilt) = _hand.Excess;
            Angle without = AimErrors.Separation(
                _dish.Azimuth - Angle.FromDegrees(pan), _dish.Elevation - Angle.FromDegrees(tilt), look.Azimuth, look.Elevation);
            if (_receiver.MarginDb + _beam.LossAt(off).Value - _beam.LossAt(without).Value < 0.0)
            {
                _hand.Wrong = null;
            }
        }

        // What would have saved the line: without pointing loss, without what stood in the way?
        private GapCause Why(double now, bool silent, bool stopped, bool clipping)
        {
            if (silent || stopped || clipping || Has(FaultKind.NotTransmitting))
            {
                return silent ? GapCause.FeedSilent : stopped ? GapCause.RecorderStopped : clipping ? GapCause.Overload : GapCause.NotTransmitting;
            }

            Fault? way = _faults.Where(f => f.Kind is FaultKind.Fade or FaultKind.Skyline && now >= f.At && now < f.At + f.Seconds + 0.5).Cast<Fault?>().FirstOrDefault();
            if (way is { } obstruction)
            {
                return obstruction.Kind == FaultKind.Fade ? GapCause.Fade : GapCause.Skyline;
            }

            return SpareDb() < 0.0 ? GapCause.Weak : _hand.Wrong switch
            {
                FaultKind.Late => GapCause.Late,
                FaultKind.Amount => GapCause.Amount,
                FaultKind.WrongWay => GapCause.WrongWay,
                FaultKind.NotFound => GapCause.NotFound,
                _ => GapCause.OffAim,
            };
        }

        // A dish that is held as planned loses the allowed loss now and then: what that takes, no hand could have kept.
        private double SpareDb() =>
            _receiver.MarginDb + (_receiver.OffAxis is { } off ? _beam.LossAt(off).Value : 0.0) - _settings.AllowedLoss.Value;

        private bool Has(FaultKind kind) => _faults.Any(f => f.Kind == kind);

        private bool During(FaultKind kind, double now) => _faults.Any(f => f.Kind == kind && now >= f.At && now < f.At + f.Seconds);

        private Snapshot Fold(DateTimeOffset utc, string source, SessionEvent happened)
        {
            Envelope envelope = new(_envelopes.Count + 1, utc - _opened, utc, source, happened);
            _envelopes.Add(envelope);
            Snapshot snapshot = _fold.Step(envelope);
            _recorder.Add(happened, snapshot);
            return snapshot;
        }
    }
}

/// <summary>The truth of a tenth of a second.</summary>
/// <param name="Cause">Why its lines were lost; null while they were received.</param>
/// <param name="SpareDb">What a dish that is held as planned would have had over the need, dB.</param>
/// <param name="Made">Whether it was made to go wrong; else small errors of the hand and wrong beliefs of the guidance added up.</param>
public readonly record struct LineTruth(GapCause? Cause, double SpareDb, bool Made);
