using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>A time in which the dish follows one of the passes that overlap.</summary>
/// <param name="Pass">Which.</param>
/// <param name="Shift">From when to when, and what it brings.</param>
/// <param name="Azimuth">Where the satellite is at its begin, true.</param>
/// <param name="Compass">The same as a compass reads it.</param>
/// <param name="Elevation">How high it is then.</param>
internal sealed record DishTurn(EveningPass Pass, DishShift Shift, Angle Azimuth, Angle Compass, Angle Elevation);

/// <summary>Passes that overlap, and the best way to share one dish among them.</summary>
/// <param name="Passes">The passes, by time of rise.</param>
/// <param name="Turns">Who has the dish when.</param>
/// <param name="Shares">What that brings, and what each loses.</param>
/// <param name="Turn">What the dish needs from one satellite to another.</param>
internal sealed record SharedDish(ImmutableArray<EveningPass> Passes, ImmutableArray<DishTurn> Turns, DishShares Shares, TimeSpan Turn)
{
    /// <summary>To let go, turn pan and tilt, tune, and find the other signal within a beam of some ten degrees; our judgement, no source.</summary>
    public static readonly TimeSpan UsualTurn = TimeSpan.FromSeconds(60);

    /// <summary>Passes beyond these are so far down the list that nobody shares a dish for them.</summary>
    private const int MostCompared = 24;

    private static readonly TimeSpan WorthSaying = TimeSpan.FromSeconds(5);

    /// <summary>Finds the groups and shares the dish in each.</summary>
    /// <param name="best">The passes, the best first.</param>
    /// <param name="settings">Station and dish.</param>
    /// <param name="turn">What the dish needs from one satellite to another.</param>
    /// <param name="field">The magnetic field at the station.</param>
    public static ImmutableArray<SharedDish> Among(ImmutableArray<EveningPass> best, VerdictSettings settings, TimeSpan turn, MagneticField field)
    {
        List<List<EveningPass>> groups = [];
        DateTimeOffset end = DateTimeOffset.MinValue;
        foreach (EveningPass pass in best.Take(MostCompared).OrderBy(one => one.Rise.Utc).ThenBy(one => one.Number))
        {
            if (groups.Count == 0 || pass.Rise.Utc >= end + turn)
            {
                groups.Add([]);
            }

            groups[^1].Add(pass);
            end = pass.Set.Utc > end ? pass.Set.Utc : end;
        }

        return [.. groups.Where(group => group.Count > 1).Select(group => Of([.. group], settings, turn, field))];
    }

    /// <summary>When a pass has the dish; empty where it has not.</summary>
    public ImmutableArray<DishTurn> TurnsOf(EveningPass pass) => [.. Turns.Where(turn => turn.Pass == pass)];

    /// <summary>What a pass loses by sharing.</summary>
    public TimeSpan LostOf(EveningPass pass) => Shares.Lost[Passes.IndexOf(pass)];

    /// <summary>The advice in words, like "PETREL 2 and TERN 4 overlap: take PETREL 2 to 20:45:10, then turn to TERN 4 at azimuth 16 (compass 12), elevation 9; 2 min of TERN 4 are lost".</summary>
    /// <param name="clock">In which time.</param>
    public string Words(WallTime clock)
    {
        string who = Joined([.. Passes.Select(pass => pass.Satellite)]);
        EveningPass[] taken = [.. Turns.Select(turn => turn.Pass).Distinct()];
        string way = taken is [var only]
            ? $"take {only.Satellite} alone: to turn would bring no more"
            : string.Join(", ", Turns.Select((turn, k) => Step(turn, k, clock)));
        return $"{who} overlap: {way}; {Lost()}.";
    }

    private string Step(DishTurn turn, int number, WallTime clock)
    {
        string where = string.Create(CultureInfo.InvariantCulture, $"{turn.Pass.Satellite} at azimuth {Whole(turn.Azimuth)} (compass {Whole(turn.Compass)}), elevation {turn.Elevation.Degrees:0}");
        string until = number == Turns.Length - 1 ? "" : $" to {clock.Second(turn.Shift.ToUtc)}";
        return number == 0 ? $"take {turn.Pass.Satellite}{until}" : $"then turn to {where}{until}";
    }

    private string Lost()
    {
        string[] lost =
        [
            .. Passes.Select((pass, k) => (pass.Satellite, Time: Shares.Lost[k])).Where(one => one.Time >= WorthSaying)
                .Select(one => $"{Span(one.Time)} of {one.Satellite}"),
        ];
        return lost.Length == 0 ? "nothing is lost" : $"{Joined(lost)} {(lost.Length == 1 && lost[0].StartsWith("1 min", StringComparison.Ordinal) ? "is" : "are")} lost";
    }

    private static SharedDish Of(ImmutableArray<EveningPass> passes, VerdictSettings settings, TimeSpan turn, MagneticField field)
    {
        DishShares shares = DishSharing.Best([.. passes.Select(pass => DishClaim.Of(pass.Verdict.Candidate, settings with { Link = pass.Planned.Link }))], turn);
        return new SharedDish(passes, [.. shares.Shifts.Select(shift => TurnOf(passes[shift.Claim], shift, field))], shares, turn);
    }

    private static DishTurn TurnOf(EveningPass pass, DishShift shift, MagneticField field)
    {
        LookAngles look = pass.Verdict.Candidate.Track.At(shift.FromUtc) ?? pass.Planned.Pass.Aos.Look;
        Angle azimuth = look.Azimuth.WrappedToTurn();
        return new DishTurn(pass, shift, azimuth, field.ToMagnetic(azimuth), look.Elevation);
    }

    private static string Joined(string[] words) => words.Length < 2 ? words[0] : $"{string.Join(", ", words[..^1])} and {words[^1]}";

    private static string Span(TimeSpan time) => time < TimeSpan.FromMinutes(1)
        ? string.Create(CultureInfo.InvariantCulture, $"{time.TotalSeconds:0} s")
        : string.Create(CultureInfo.InvariantCulture, $"{time.TotalMinutes:0.#} min");

    private static string Whole(Angle azimuth) => (Math.Round(azimuth.Degrees) % 360.0).ToString("000", CultureInfo.InvariantCulture);
}
