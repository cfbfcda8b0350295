using System.Globalization;
using System.Text;
using Cockpit.Core.Aim;

namespace Cockpit.Reports;

/// <summary>Where the dish stands when, and how far it is turned each time.</summary>
internal static class SheetHolds
{
    /// <summary>No hand follows more; beyond these the voice leads.</summary>
    private const int Most = 48;

    /// <summary>Above these they stand closer on paper.</summary>
    private const int Many = 36;

    /// <summary>The section.</summary>
    public static string Of(SheetFacts facts)
    {
        bool panTilt = facts.Mount == Mount.PanTilt;
        Hold[] shown = [.. facts.Holds.Take(Most)];
        int half = (shown.Length + 1) / 2;
        var text = new StringBuilder($"<section>\n<h2>Holds</h2>\n<div class=\"holds{(shown.Length > Many ? " many" : "")}\">\n");
        for (int from = 0; from < shown.Length; from += half)
        {
            text.Append("<table>\n<thead><tr><th>no</th><th>from</th><th>").Append(panTilt ? "pan" : "azimuth").Append("</th><th>").Append(panTilt ? "tilt" : "elev").Append("</th><th>turn</th></tr></thead>\n<tbody>\n");
            for (int k = from; k < Math.Min(from + half, shown.Length); k++)
            {
                text.Append(Row(facts, shown[k], k == 0 ? null : shown[k - 1], panTilt));
            }

            text.Append("</tbody>\n</table>\n");
        }

        return text.Append("</div>\n").Append(Words(facts, panTilt)).Append("</section>\n").ToString();
    }

    private static string Row(SheetFacts facts, Hold hold, Hold? before, bool panTilt)
    {
        SkyPlace place = hold.Flown();
        string turn = before is null ? "" : Turn(before.Flown(), place, panTilt);
        string mark = hold.Skip is null ? "" : "☼ ";
        return Text($"<tr{(hold.Skip is null ? "" : " class=\"aside\"")}><td>{mark}{hold.Number}</td><td>{facts.Clock.Second(hold.FromUtc)}</td><td>{SheetParts.Whole(place.Azimuth)}</td><td>{place.Elevation.Degrees:0}°</td><td>{turn}</td></tr>\n");
    }

    /// <summary>Right or left, up or down, in the axes of the hand.</summary>
    private static string Turn(SkyPlace from, SkyPlace to, bool panTilt)
    {
        AimError move = AimErrors.Between(from.Azimuth, from.Elevation, to.Azimuth, to.Elevation);
        (double right, double up) = panTilt ? (move.Pan.Degrees, move.Tilt.Degrees) : (move.Right.Degrees, move.Up.Degrees);
        return Text($"{(right < 0 ? '◄' : '►')}{Math.Abs(right):0} {(up < 0 ? '▼' : '▲')}{Math.Abs(up):0}");
    }

    private static string Words(SheetFacts facts, bool panTilt)
    {
        var text = new StringBuilder("<p>");
        text.Append(panTilt
            ? "Pan is the true azimuth, tilt the elevation; turn is what the two scales of the head change by. "
            : "Turn is right or left, up or down, as seen from behind the dish. ");
        text.Append("Be there at the second named; the voice of <em>cockpit live</em> knows better where the signal is.");
        if (facts.Holds.Length > Most)
        {
            text.Append(Text($" {facts.Holds.Length - Most} more follow: this beam is narrow for a hand."));
        }

        text.Append("</p>\n");
        Hold[] skipped = [.. facts.Holds.Where(hold => hold.Skip is not null)];
        if (skipped.Length > 0)
        {
            double nearest = skipped.Min(hold => hold.Skip?.Separation.Degrees ?? 0.0);
            double worst = skipped.Max(hold => hold.Skip?.WorstLoss.Value ?? 0.0);
            text.Append(Text($"<p><strong>☼ Sun:</strong> {Numbers(skipped)} would point as near as {nearest:0}° to it. The dish stands aside as listed and loses up to {worst:0} dB; lines will be lost.</p>\n"));
        }

        return text.ToString();
    }

    private static string Numbers(Hold[] holds) => holds.Length == 1
        ? string.Create(CultureInfo.InvariantCulture, $"hold {holds[0].Number}")
        : string.Create(CultureInfo.InvariantCulture, $"{holds.Length} holds from {holds[0].Number} to {holds[^1].Number}");

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
