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

    private const int MostNamed = 4;

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

    /// <summary>The advice in words, like "PETREL 2 and TERN 4 overlap: take PETREL 2 to 20:45:10, then turn to TERN 4 at azimuth 016 (compass 012), elevation 9; 2 min of TERN 4 are lost."</summary>
    /// <param name="clock">In which time.</param>
    public string Words(WallTime clock)
    {
        string way = Turns is [var only]
            ? $"take {only.Pass.Satellite} alone: to turn would bring no more"
            : string.Join(", ", Turns.Select((turn, k) => Step(turn, k, clock)));
        return $"{Names(Passes)} overlap: {way}; {Lost()}.";
    }

    /// <summary>The advice for one of the passes, like "From TERN 4 turn to it at 20:46:10: azimuth 016 (compass 012), elevation 9. 2 min of it are lost."</summary>
    /// <param name="pass">Which.</param>
    /// <param name="clock">In which time.</param>
    public string WordsOf(EveningPass pass, WallTime clock)
    {
        EveningPass[] others = [.. Passes.Where(other => other != pass)];
        if (!Turns.Any(turn => turn.Pass == pass))
        {
            return $"{Names([.. others])} overlap with it, and bring more in that time: the dish is better used there.";
        }

        List<string> words = [$"{Names([.. others])} overlap{(others.Length == 1 ? "s" : "")} with it."];
        for (int k = 0; k < Turns.Length; k++)
        {
            if (Turns[k].Pass == pass && k > 0)
            {
                words.Add($"From {Turns[k - 1].Pass.Satellite} turn to it at {clock.Second(Turns[k].Shift.FromUtc)}: {Where(Turns[k])}.");
            }

            if (Turns[k].Pass == pass && k < Turns.Length - 1)
            {
                words.Add($"Leave it at {clock.Second(Turns[k].Shift.ToUtc)} for {Turns[k + 1].Pass.Satellite} at {Where(Turns[k + 1])}.");
            }
        }

        words.Add(LostOf(pass) < WorthSaying ? "Nothing of it is lost." : $"{Span(LostOf(pass))} of it are lost.");
        return string.Join(' ', words);
    }

    private string Step(DishTurn turn, int number, WallTime clock)
    {
        string until = number == Turns.Length - 1 ? "" : $" to {clock.Second(turn.Shift.ToUtc)}";
        return number == 0 ? $"take {turn.Pass.Satellite}{until}" : $"then turn to {turn.Pass.Satellite} at {Where(turn)}{until}";
    }

    /// <summary>What is lost of those that are taken; of the others their number.</summary>
    private string Lost()
    {
        string[] lost =
        [
            .. Passes.Where(pass => Turns.Any(turn => turn.Pass == pass) && LostOf(pass) >= WorthSaying).Select(pass => $"{Span(LostOf(pass))} of {pass.Satellite}"),
        ];
        EveningPass[] whole = [.. Passes.Where(pass => !Turns.Any(turn => turn.Pass == pass))];
        string[] all = whole.Length == 0 ? lost : [.. lost, "all of " + Names([.. whole])];
        return all.Length == 0 ? "nothing is lost" : $"{Joined(all)} {(all.Length == 1 && whole.Length == 1 ? "is" : "are")} lost";
    }

    private static string Where(DishTurn turn) => string.Create(
        CultureInfo.InvariantCulture, $"azimuth {Whole(turn.Azimuth)} (compass {Whole(turn.Compass)}), elevation {turn.Elevation.Degrees:0}");

    private static string Names(ImmutableArray<EveningPass> passes)
    {
        string[] names = [.. passes.Select(pass => pass.Satellite)];
        return names.Length <= MostNamed ? Joined(names)
            : string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", names.Take(MostNamed - 1))} and {names.Length - MostNamed + 1} more");
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
