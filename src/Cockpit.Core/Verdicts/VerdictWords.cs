namespace Cockpit.Core.Verdicts;

/// <summary>The sentence of a verdict.</summary>
internal static class VerdictWords
{
    /// <summary>Elements older than this deserve a word.</summary>
    private const double OldDays = 5.0;

    /// <summary>An error on the sky of this share of the beam deserves a word.</summary>
    private const double WorthSaying = 0.25;

    public static string Sentence(PassVerdict verdict) =>
        verdict.Word == VerdictWord.No ? Words(verdict, light: true) : string.Join("; ", [Words(verdict, light: true), .. Remarks(verdict)]);

    public static string Brief(PassVerdict verdict) => Words(verdict, light: false);

    public static string Light(PictureLight light) => light switch
    {
        PictureLight.Daylight => "daylight",
        PictureLight.Mixed => "part daylight",
        _ => "night (infra-red only)",
    };

    private static string Words(PassVerdict verdict, bool light)
    {
        List<string> parts = [TravelWords.Height(verdict.Pass.Tca.Look.Elevation), Minutes(verdict)];
        if (verdict.Word == VerdictWord.No)
        {
            parts.Add("too weak for this dish");
        }
        else
        {
            parts.AddRange(light ? [Light(verdict.Light)] : []);
            parts.Add(verdict.Nudges == 1 ? "1 nudge" : FormattableString.Invariant($"{verdict.Nudges} nudges"));
        }

        return $"{Word(verdict.Word)}: {string.Join(", ", parts)}";
    }

    public static string? Age(PassVerdict verdict) => Math.Abs(verdict.ElementAge.Age.TotalDays) > OldDays || verdict.Aside > WorthSaying * verdict.BeamWidth
        ? FormattableString.Invariant($"{verdict.ElementAge.Words()}, up to {verdict.ElementAge.HighSeconds:0} s early or late")
        : null;

    public static string Word(VerdictWord word) => word switch
    {
        VerdictWord.Go => "go",
        VerdictWord.Fair => "fair",
        VerdictWord.Poor => "poor",
        _ => "no",
    };

    private static string Minutes(PassVerdict verdict)
    {
        string whole = FormattableString.Invariant($"{verdict.Pass.Duration.TotalMinutes:0} min");
        return verdict.ReceivableShare is 0.0 or >= 0.95 ? whole
            : verdict.Receivable < TimeSpan.FromMinutes(1) ? whole + " (under 1 clean)"
            : FormattableString.Invariant($"{whole} ({verdict.Receivable.TotalMinutes:0} clean)");
    }

    private static IEnumerable<string> Remarks(PassVerdict verdict)
    {
        if (verdict is { SunNear: true, Sun: { } sun })
        {
            yield return FormattableString.Invariant($"sun {sun.Separation.Degrees:0}° away at {sun.Utc.UtcDateTime:HH:mm}");
        }

        if (Age(verdict) is { } age)
        {
            yield return age;
        }

        if (!verdict.Clashes.IsEmpty)
        {
            PassClash first = verdict.Clashes.FirstOrDefault(clash => clash.Better) ?? verdict.Clashes[0];
            int more = verdict.Clashes.Length - 1 + verdict.FurtherClashes;
            yield return $"at the same time as {(first.Better ? "the better " : "")}{first.Satellite}{(more > 0 ? FormattableString.Invariant($" and {more} more") : "")}";
        }
    }
}
