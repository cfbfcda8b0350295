using System.Globalization;
using Cockpit.Core.Units;
using Cockpit.Screen.Themes;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The broad strip under the band: what went wrong or lies ahead, in a colour of its own; else why the command is what it is.</summary>
internal static class StripPanel
{
    private const int Left = 3;
    private const double EachSeconds = 3.0;
    private static readonly TimeSpan TurnNotice = TimeSpan.FromMinutes(5);

    /// <summary>Whether something went wrong or lies ahead, and how it is shown; null when all is well.</summary>
    public static Role? TroubleOf(Snapshot now) => Trouble(now)?.Role;

    public static Block Of(Snapshot now, int width)
    {
        (string text, Role role) = Trouble(now) ?? (Why(now), Role.Plain);
        Canvas canvas = new(width, 1, role);
        canvas.Text(0, 0, new string(' ', width), role);
        canvas.Text(Left, 0, Figures.Fit(text, width - Left), role);
        string fine = Fine(now);
        if (role == Role.Plain && CellColumns.Width(text) + fine.Length + Left + 2 < width)
        {
            canvas.TextBefore(width - 1, 0, fine, Role.Dim);
        }

        return canvas.ToBlock();
    }

    private static (string Text, Role Role)? Trouble(Snapshot now)
    {
        if (now.Desk.JournalTrouble is { } journal)
        {
            return ($"NOT RECORDED: {journal}", Role.Warning);
        }

        // Several at once take turns, so that none hides another.
        string[] troubles = [.. new[] { Signal(now), Sun(now), Turn(now) }.OfType<string>()];
        return troubles.Length == 0 ? null : (troubles[(int)(now.Elapsed.TotalSeconds / EachSeconds) % troubles.Length], Role.Caution);
    }

    /// <summary>A feed that should bring the level and does not, from a minute before the rise on.</summary>
    private static string? Signal(Snapshot now)
    {
        bool inPass = now.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;
        if (!inPass && now.Sky?.Phase != PassPhase.Ready)
        {
            return null;
        }

        if (now.Feeds.IsDefaultOrEmpty)
        {
            return null;
        }

        foreach (FeedNow feed in now.Feeds)
        {
            string? gone = feed.Role != FeedRole.Signal ? null : feed.Health switch
            {
                FeedHealth.Unreadable => "SIGNAL NOT READABLE",
                FeedHealth.Good => null,
                _ when feed.Records == 0 => inPass ? "NO SIGNAL YET" : null,
                FeedHealth.Waiting => null,
                _ => $"NO SIGNAL {Seconds(now.Utc - feed.SilentSince)}",
            };
            if (gone is not null)
            {
                return $"{gone}; go by plan";
            }
        }

        return inPass && now.Aim.ByPlan is { } plan ? $"{(plan.SilentFor is { } silent ? $"NO SIGNAL {Seconds(silent)}" : "NO SIGNAL")}; go by plan" : null;
    }

    private static string? Sun(Snapshot now)
    {
        if (now.Sky is not { Phase: not PassPhase.Over, Sun: { FromUtc: { } from, Nearest: { } nearest } sun } || !sun.IsNear(now.Utc))
        {
            return null;
        }

        string when = from > now.Utc ? $"in {Seconds(from - now.Utc)}" : "now";
        if (sun.Skipped is { } skipped)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{skipped.Words()[..1].ToUpperInvariant()}{skipped.Words()[1..]} {when}; follow the calls");
        }

        return string.Create(CultureInfo.InvariantCulture, $"SUN NEAR THE BEAM {when}, down to {nearest.Degrees:0}°: never look along the dish");
    }

    private static string? Turn(Snapshot now) => now.Aim.Overhead is { } turn && turn.AtUtc - now.Utc is var left && left > TimeSpan.Zero && left < TurnNotice
        ? TurnWords.Of(turn)
        : null;

    private static string Why(Snapshot now) => now.Aim switch
    {
        { Compass: { } read } => $"better set anew: {Compass(now, read.Azimuth)}, elevation {Figures.Of(read.Elevation.Degrees, 0, 0)}; {now.Aim.Reason.Words()}",
        { Word: AimWord.Point, Target: { } target } => $"azimuth {Figures.Azimuth(target.Azimuth.WrappedToTurn().Degrees)}   {Compass(now, target.Azimuth)}   elevation {Figures.Of(target.Elevation.Degrees, 0, 1)}",
        { Word: AimWord.Point } => "no pass is known",
        { Word: AimWord.Done } => Over(now),
        { PeakAsked: true, Word: not AimWord.Move } => "the tone searches the peak: Space at the best",
        { Word: AimWord.Move } aim => aim.Reason.Words(),
        { Nudge: null } => "no nudge is seen before the end",
        { Word: AimWord.Hold } aim => $"stay; then {aim.Reason.Words()}",
        var aim => aim.Reason.Words(),
    };

    private static string Over(Snapshot now) => now.Link.Tally is { } tally
        ? string.Create(CultureInfo.InvariantCulture, $"over: {Figures.Span(tally.Received)} of {Figures.Span(tally.Sent)} received, {tally.LinesLost} lines lost; why: cockpit review")
        : "the pass is over; what was lost and why: cockpit review";

    private static string Compass(Snapshot now, Angle azimuth) => now.Settings?.MagneticDeclination is { } declination
        ? $"compass {Figures.Azimuth((azimuth - declination).WrappedToTurn().Degrees)}"
        : $"true azimuth {Figures.Azimuth(azimuth.WrappedToTurn().Degrees)}";

    private static string Fine(Snapshot now) => now.Aim.Fine is { } fine && now.Link.IsFresh
        ? $"fine: best {Figures.Of(fine.BestDb, 0, 1)}, now {Figures.Of(fine.NowDb, 0, 1)} dB"
        : "";

    private static string Seconds(TimeSpan? span) => span is { } s ? string.Create(CultureInfo.InvariantCulture, $"{Math.Max(0.0, s.TotalSeconds):0} s") : "";
}
