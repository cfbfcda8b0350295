using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>What a large screen has room for below the numbers: how the pass goes so far, what is possible, and the coming holds.</summary>
internal static class OutlookRows
{
    private const int LeastRows = 3;

    /// <summary>As many rows as there is room for.</summary>
    public static IEnumerable<Row> Of(Snapshot now, int room) => room < LeastRows ? [] : All(now).Take(room);

    private static IEnumerable<Row> All(Snapshot now)
    {
        yield return new Row("", "", Role.Plain);
        foreach (Row row in SoFar(now))
        {
            yield return row;
        }

        if (now.Sky is not { Phase: not PassPhase.Over } sky)
        {
            yield break;
        }

        bool first = true;
        foreach (Hold hold in sky.Holds)
        {
            if (hold.FromUtc <= now.Utc)
            {
                continue;
            }

            if (first)
            {
                yield return new Row("", "by plan       az     el     for", Role.Dim);
                first = false;
            }

            string seconds = string.Create(CultureInfo.InvariantCulture, $"{(hold.ToUtc - hold.FromUtc).TotalSeconds,6:0} s");
            SkyPlace stands = hold.Flown();
            string sun = hold.Skip is null ? "" : $" {SkyPanel.SunGlyph}";
            yield return new Row(Figures.Clock(hold.FromUtc), $"{Figures.Azimuth(stands.Azimuth.WrappedToTurn().Degrees),7}{Figures.Of(stands.Elevation.Degrees, 7, 1)}{seconds}{sun}", hold.Skip is null ? Role.Plain : Role.Caution);
        }
    }

    private static IEnumerable<Row> SoFar(Snapshot now)
    {
        if (now.Link.Tally is not { } tally)
        {
            yield break;
        }

        yield return new Row("received", $"{Figures.Span(tally.Received),7} of {Figures.Span(tally.Sent)}", Role.Strong);
        yield return new Row("lost", string.Create(CultureInfo.InvariantCulture, $"{tally.LinesLost,7} lines so far"), tally.LinesLost > 0 ? Role.Strong : Role.Plain);
        yield return new Row("possible", $"{Figures.Span(tally.Possible),7} by the budget", Role.Plain);
    }
}
