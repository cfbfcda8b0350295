using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sensing;
using Cockpit.Core.Signal;
using Cockpit.Session.State;

namespace Cockpit.Session.Handset;

/// <summary>What a phone at the hand is to show: the same words and numbers as the screen and the voice. Pure.</summary>
public static class HandsetComputer
{
    /// <summary>From here on lines of the picture go: the edge of the half-power beam.</summary>
    private const double LostDb = 3.0;

    private static readonly TimeSpan LastMinute = TimeSpan.FromSeconds(60);

    /// <summary>Follows one snapshot.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="now">The moment.</param>
    public static HandsetMemory Next(HandsetMemory memory, Snapshot now)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(now);
        return HandsetCues.Next(memory, now.Cues) with { Move = ShownMove.Next(memory.Move, now.Aim, now.Elapsed) };
    }

    /// <summary>What is shown.</summary>
    /// <param name="memory">The memory after the moment.</param>
    /// <param name="now">The moment.</param>
    /// <param name="axis">Which axis of the phone lies along the dish.</param>
    public static HandsetGuidance Derive(HandsetMemory memory, Snapshot now, DeviceAxis axis)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(now);
        bool moves = now.Aim.Word is AimWord.Move or AimWord.Next or AimWord.Search;
        AimError? move = moves && memory.Move is not null ? now.Aim.Nudge : null;
        bool waits = now.Aim.Word is AimWord.Next or AimWord.Hold or AimWord.Search;
        DateTimeOffset? at = waits ? now.Aim.NudgeAt : now.Aim.Word == AimWord.Point ? now.Sky?.Pass.Aos.Utc : null;
        return new HandsetGuidance(
            WordOf(now),
            move?.Right.Degrees,
            move?.Up.Degrees,
            move is { } nudge ? HandsetArrow.Of(nudge.Right.Degrees, nudge.Up.Degrees, now.Sensor is { IsFresh: true } sensor ? sensor.Roll : null, axis) : null,
            HandsetArrow.IsFlat(axis),
            TextOf(memory.Move, now.Aim),
            at is { } moment ? Math.Max(0.0, (moment - now.Utc).TotalSeconds) : null,
            at is { } end ? Left(now, end) : null,
            SignalOf(now),
            IsLosing(now),
            memory.Cue,
            memory.CueCount,
            memory.Say,
            NoteOf(now),
            ButtonsOf(now),
            now.Settings?.SatelliteName ?? "") { Tones = memory.Tones };
    }

    private static string WordOf(Snapshot now) => now switch
    {
        { Sky: null } => "NONE",
        { Aim.Word: AimWord.Done } or { Sky.Phase: PassPhase.Over } => "OVER",
        { Aim.Word: AimWord.Point } => ToPointAt(now) is null ? "WAIT" : "POINT",
        _ => now.Aim.Word.ToString().ToUpperInvariant(),
    };

    private static string TextOf(ShownMove? move, AimNow aim)
    {
        if (move is null || aim.Word is not (AimWord.Move or AimWord.Next or AimWord.Search or AimWord.Hold))
        {
            return "";
        }

        string[] parts = [Part(move.Side, "LEFT", "RIGHT"), Part(move.Lift, "DOWN", "UP")];
        string amounts = string.Join("  ", parts.Where(part => part.Length > 0));
        return aim.Word == AimWord.Move || amounts.Length == 0 ? amounts : $"THEN {amounts}";
    }

    private static string Part(int degrees, string negative, string positive) =>
        degrees == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{(degrees < 0 ? negative : positive)} {Math.Abs(degrees)}");

    /// <summary>What is left of the hold, as the bar of the screen shows it.</summary>
    private static double Left(Snapshot now, DateTimeOffset end)
    {
        DateTimeOffset from = now.Aim.Current?.FromUtc ?? end - LastMinute;
        double whole = (end - from).TotalSeconds;
        return whole > 0.0 ? Math.Clamp((end - now.Utc).TotalSeconds / whole, 0.0, 1.0) : 0.0;
    }

    private static string SignalOf(Snapshot now) => now switch
    {
        { Link.MeasuredDb: null } => "no signal",
        { Link.NoSignalFor: not null } => "no signal",
        { Link: { MeasuredDb: { } level, ExpectedDb: { } expected } } => string.Create(CultureInfo.InvariantCulture, $"{level - expected:+0.0;-0.0;0.0} dB"),
        { Link: { MeasuredDb: { } level, Quantity: var quantity } } => string.Create(CultureInfo.InvariantCulture, $"{quantity?.Symbol()} {level:0.0} dB"),
    };

    private static bool IsLosing(Snapshot now) =>
        now.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking && (now.Link.LockLostFor is not null || (now.Link.Last is null && now.Aim.PointingLoss?.Value > LostDb));

    private static string NoteOf(Snapshot now)
    {
        string note = now switch
        {
            { Message.Text: { } text } => text,
            { Aim.Word: AimWord.Point } when ToPointAt(now) is { } thing => $"point the dish at {thing.What}, then HERE",
            { Aim: { Word: AimWord.Point, Target: { } first } } =>
                string.Create(CultureInfo.InvariantCulture, $"set up to azimuth {first.Azimuth.WrappedToTurn().Degrees:0}, elevation {first.Elevation.Degrees:0}"),
            _ => "",
        };
        return note.Length <= HandsetGuidance.LongestNote ? note : $"{note[..(HandsetGuidance.LongestNote - 1)].TrimEnd()}…";
    }

    private static ImmutableArray<string> ButtonsOf(Snapshot now) =>
        now.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking ? ["peaked", "moved", "notmoved"] : ToPointAt(now) is null ? [] : ["here"];

    /// <summary>What of known direction the dish is to be pointed at; null while the sensor needs nothing of that.</summary>
    private static DirectionOffer? ToPointAt(Snapshot now) =>
        now.Readiness is { Directions: { Chosen: var chosen } } ready && ready.Items.Any(item => item is { Topic: ReadinessTopic.Sensor, State: ReadinessState.Open }) ? chosen : null;
}
