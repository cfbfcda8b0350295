using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
using Cockpit.Session.Events;

namespace Cockpit.Commands;

/// <summary>Which pass <c>cockpit live</c> flies when nobody named a satellite, and which others it offers. Pure.</summary>
/// <param name="Passes">The passes to choose from, by time of rise; at least one.</param>
/// <param name="Taken">Which of them is flown, from 0.</param>
/// <param name="Why">One sentence for people.</param>
internal sealed record LivePick(ImmutableArray<PlannedPass> Passes, int Taken, string Why)
{
    /// <summary>How far ahead is looked.</summary>
    public static readonly TimeSpan Span = TimeSpan.FromHours(24);

    /// <summary>Less of a pass that is under way is not worth setting up for.</summary>
    private static readonly TimeSpan Left = TimeSpan.FromMinutes(3);

    /// <summary>The pass that is flown.</summary>
    public PlannedPass Chosen => Passes[Taken];

    /// <summary>The next pass worth it; of those that overlap with it the best.</summary>
    /// <param name="ahead">What comes.</param>
    /// <param name="now">Start of the session, UTC.</param>
    /// <returns>The pick, or one sentence why there is none.</returns>
    public static Parsed<LivePick> Of(PassesAhead ahead, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(ahead);
        PlannedPass[] coming = [.. ahead.Worth.Where(one => one.Pass.Los.Utc >= now + Left).OrderBy(one => one.Pass.Aos.Utc)];
        PlannedPass[] fine = [.. coming.Where(one => one.Verdict.Word >= VerdictWord.Fair)];
        if (coming.Length == 0)
        {
            return new ParseError("live", 0, 0, string.Create(
                CultureInfo.InvariantCulture,
                $"no pass of the next {Span.TotalHours:0} hours is worth it for this dish ({ahead.Weak} are too weak); --satellite NAME flies the next one all the same, cockpit passes --all shows them"));
        }

        PlannedPass[] offered = fine.Length > 0 ? fine : coming;
        PlannedPass first = offered[0];
        PlannedPass best = ahead.Worth.First(one => offered.Contains(one) && one.Pass.Aos.Utc < first.Pass.Los.Utc);
        ImmutableArray<PlannedPass> passes = [.. offered.Take(PassChoice.Most)];
        int taken = Math.Max(0, passes.IndexOf(best));
        string instead = taken == 0 ? "" : $", better than {first.Satellite} at the same time";
        string least = fine.Length > 0 ? "" : "; nothing better comes in 24 hours";
        return new LivePick(passes, taken, $"the next worth it{instead}{least}: {passes[taken].Verdict.Sentence}");
    }

    /// <summary>The same passes with another taken.</summary>
    /// <param name="index">Which, from 0.</param>
    public LivePick With(int index) => this with { Taken = index, Why = $"your choice: {Passes[index].Verdict.Sentence}" };

    /// <summary>Without the others, for a session that cannot be begun anew.</summary>
    public LivePick Alone => this with { Passes = [Chosen], Taken = 0 };

    /// <summary>As the session keeps it.</summary>
    public PassChoice Choice => new(
        Why,
        [.. Passes.Select(one => new PassOffer(one.Satellite, one.Pass.Aos.Utc, one.Pass.Tca.Look.Elevation, Words(one.Verdict)))],
        Taken);

    /// <summary>What is to be expected, in a few words.</summary>
    private static string Words(PassVerdict verdict)
    {
        string light = verdict.Light switch
        {
            PictureLight.InfraRedOnly => "night below",
            PictureLight.Daylight => "daylight",
            _ => "part daylight",
        };
        string sun = verdict.SunNear ? ", sun near" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{verdict.Word.ToString().ToLowerInvariant()}: {verdict.Receivable.TotalMinutes:0} of {verdict.Pass.Duration.TotalMinutes:0} min, {light}{sun}");
    }

    /// <summary>One line for the terminal before the screen opens.</summary>
    public string Line => string.Create(
        CultureInfo.InvariantCulture, $"{Chosen.Satellite}, rise {Chosen.Pass.Aos.Utc:yyyy-MM-dd HH:mm:ss} UTC, {Chosen.Pass.Tca.Look.Elevation.Degrees:0} degrees high; {Why}");
}
