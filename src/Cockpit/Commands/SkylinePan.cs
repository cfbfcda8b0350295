using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Commands;

/// <summary>A skyline as it is taught by a phone on the dish: first its azimuth is set by something of known direction, then the dish is panned along the edge. Pure.</summary>
/// <param name="Lesson">The skyline so far, azimuth true.</param>
/// <param name="Declination">What is added to an azimuth that is counted from magnetic north.</param>
/// <param name="Offers">What can be pointed at; empty where nothing can be seen.</param>
internal sealed record SkylinePan(SkylineLesson Lesson, Angle Declination, ImmutableArray<DirectionOffer> Offers)
{
    /// <summary>A turn between two samples that no hand makes: the phone slipped, or its compass jumped.</summary>
    private const double FastestDegrees = 40.0;

    /// <summary>Which of the offers is asked for.</summary>
    public int Asked { get; init; }

    /// <summary>What is added to what the phone says, azimuth and elevation, degrees; null while that is not known.</summary>
    public (double Azimuth, double Elevation)? Turn { get; init; }

    /// <summary>Whether points are taken while the dish is panned.</summary>
    public bool IsTaking { get; init; }

    /// <summary>What the phone said last, azimuth true as far as its north is known, degrees; null before the first sample.</summary>
    public (double Azimuth, double Elevation)? Read { get; init; }

    /// <summary>Whether its azimuth means anything without a known direction.</summary>
    public bool HasNorth { get; init; }

    /// <summary>Where the dish points, degrees; null before the first sample.</summary>
    public (double Azimuth, double Elevation)? Points => Read is { } read ? (Wrapped(read.Azimuth + (Turn?.Azimuth ?? 0.0)), read.Elevation + (Turn?.Elevation ?? 0.0)) : null;

    /// <summary>Whether something of known direction is asked for first.</summary>
    public bool IsSetting => Turn is null;

    /// <summary>What is asked for; null where nothing can be seen.</summary>
    public DirectionOffer? Wanted => Offers.IsEmpty ? null : Offers[Asked % Offers.Length];

    /// <summary>The phone told how it is turned; whatever lies between this and the last is taken in steps along the horizon.</summary>
    public SkylinePan Turned(SensorSample sample)
    {
        if (sample is not { Azimuth: { } azimuth, Elevation: { } elevation })
        {
            return this;
        }

        bool magnetic = sample.North is SensorNorth.Magnetic or SensorNorth.Unknown;
        SkylinePan next = this with
        {
            Read = ((magnetic ? azimuth + Declination : azimuth).WrappedToTurn().Degrees, elevation.Degrees),
            HasNorth = sample.North != SensorNorth.Arbitrary,
        };
        return next is { IsTaking: true, Points: { } now } && Points is { } before ? next.Passing(before, now) : next;
    }

    /// <summary>The dish points at what is asked for; or the taking of points begins or ends.</summary>
    public SkylinePan Here()
    {
        if (Read is not { } read)
        {
            return Say("the phone says nothing yet");
        }

        if (IsSetting && Wanted is { } wanted)
        {
            double high = wanted.Elevation is { } elevation ? elevation.Degrees - read.Elevation : 0.0;
            return (this with { Turn = (HalfTurn(wanted.Azimuth.Degrees - read.Azimuth), high) })
                .Say(string.Create(CultureInfo.InvariantCulture, $"set by {wanted.What}: {HalfTurn(wanted.Azimuth.Degrees - read.Azimuth):+0.0;-0.0;0.0} in azimuth, {high:+0.0;-0.0;0.0} in elevation"));
        }

        return IsSetting ? Free()
            : IsTaking ? (this with { IsTaking = false }).Say("stopped: HERE goes on, S keeps")
            : (this with { IsTaking = true }).Say("taking: pan slowly along the edge");
    }

    /// <summary>Goes by the phone's own compass; not where its zero is anywhere.</summary>
    public SkylinePan Free() => !IsSetting ? this
        : HasNorth ? (this with { Turn = (0.0, 0.0) }).Say("by the phone's compass, not set: steel turns it by ten degrees and more")
        : Say("the phone has no compass here: it can only be set by sun, moon, pole star or a landmark");

    /// <summary>Asks for another of what can be seen.</summary>
    public SkylinePan Another() => this with { Asked = Asked + 1 };

    /// <summary>A key of the keyboard, by its name or the character it types.</summary>
    public SkylinePan Press(string key) => key switch
    {
        "Enter" or " " => Here(),
        "G" or "g" => Another(),
        "F" or "f" => Free(),
        "Backspace" or "S" or "s" or "Q" or "q" or "Escape" => this with { Lesson = Lesson.Press(key) },
        _ => this,
    };

    /// <summary>A line: "here", "another", "free", "undo", "done" or "quit".</summary>
    public SkylinePan Line(string line) => line.Trim().ToLowerInvariant() switch
    {
        "here" => Here(),
        "another" => Another(),
        "free" => Free(),
        "undo" => this with { Lesson = Lesson.Line("undo") },
        "done" => this with { Lesson = Lesson.Line("done") },
        "quit" => this with { Lesson = Lesson.Line("quit") },
        "" => this,
        _ => Say("here, another, free, undo, done or quit"),
    };

    /// <summary>What is to be done now, a few words.</summary>
    public string Task => this switch
    {
        { Read: null } => "waiting for the phone",
        { IsSetting: true, Wanted: { } wanted } => string.Create(CultureInfo.InvariantCulture, $"point the dish at {wanted.What}, then HERE"),
        { IsSetting: true } => "nothing of known direction can be seen: F goes by the compass",
        { IsTaking: true } => "pan along the edge; HERE stops",
        _ => "point at the edge, HERE, and pan along it",
    };

    /// <summary>Takes every step of the horizon that lies between two directions, by the height of the way between them.</summary>
    private SkylinePan Passing((double Azimuth, double Elevation) before, (double Azimuth, double Elevation) now)
    {
        double along = HalfTurn(now.Azimuth - before.Azimuth);
        if (Math.Abs(along) > FastestDegrees)
        {
            return (this with { IsTaking = false }).Say("that was a jump: stopped; back to the edge, and HERE goes on");
        }

        SkylineLesson lesson = Lesson;
        double from = Math.Min(before.Azimuth, before.Azimuth + along);
        double first = Math.Ceiling(from / SkylineLesson.AlongDegrees) * SkylineLesson.AlongDegrees;
        for (double at = first; at <= from + Math.Abs(along) && along != 0.0; at += SkylineLesson.AlongDegrees)
        {
            double share = (at - before.Azimuth) / along;
            double high = Math.Clamp(before.Elevation + (share * (now.Elevation - before.Elevation)), -10.0, 80.0);
            lesson = lesson.Line(string.Create(CultureInfo.InvariantCulture, $"{Wrapped(at):0.#} {high:0.#}"));
        }

        return this with { Lesson = lesson };
    }

    private SkylinePan Say(string note) => this with { Lesson = Lesson with { Note = note } };

    private static double HalfTurn(double degrees) => Angle.FromDegrees(degrees).WrappedToHalfTurn().Degrees;

    private static double Wrapped(double degrees) => Angle.FromDegrees(degrees).WrappedToTurn().Degrees;
}
