using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>A review with what its session was about.</summary>
/// <param name="Name">Name of the session, for people.</param>
/// <param name="Log">What was gathered of it.</param>
/// <param name="Review">The review.</param>
public sealed record ReviewedSession(string Name, ReviewLog Log, SessionReview Review)
{
    /// <summary>When the satellite stood highest in what was watched, UTC.</summary>
    public DateTimeOffset HighestUtc => Review.Course.Where(p => p.Elevation is not null).OrderByDescending(p => p.Elevation).Select(p => p.Utc).DefaultIfEmpty(Review.FromUtc).First();
}

/// <summary>Two sessions side by side.</summary>
/// <param name="A">One.</param>
/// <param name="B">The other.</param>
public sealed record Comparison(ReviewedSession A, ReviewedSession B)
{
    private const double FarKm = 1.0;

    /// <summary>Whether both are of one pass: the same satellite, at times that overlap. Then line answers line.</summary>
    public bool SamePass => SameSatellite && A.Review.FromUtc < B.Review.ToUtc && B.Review.FromUtc < A.Review.ToUtc;

    private bool SameSatellite => A.Log.Settings.Elements is { } a && B.Log.Settings.Elements is { } b
        ? a.CatalogNumber == b.CatalogNumber
        : string.Equals(A.Review.SatelliteName, B.Review.SatelliteName, StringComparison.Ordinal);

    /// <summary>What is not the same, a sentence each; nothing where only the hands differ.</summary>
    public ImmutableArray<string> Differences
    {
        get
        {
            (SessionSettings a, SessionSettings b) = (A.Log.Settings, B.Log.Settings);
            var found = ImmutableArray.CreateBuilder<string>();
            if (!SameSatellite)
            {
                found.Add($"not the same satellite: {A.Review.SatelliteName}, and {B.Review.SatelliteName}");
            }

            if (!SamePass)
            {
                TimeSpan later = B.HighestUtc - A.HighestUtc;
                found.Add(Text($"not the same pass: B was highest {Span(later)} {(later < TimeSpan.Zero ? "earlier" : "later")}; times are told from the highest point"));
            }

            if (Geodesic.Between(a.Station, b.Station).DistanceMetres / 1e3 is var km && km > FarKm)
            {
                found.Add(Text($"not the same place: {km:0} km apart"));
            }

            if (Math.Abs(a.DishDiameterMetres - b.DishDiameterMetres) > 0.005)
            {
                found.Add(Text($"not the same dish: {a.DishDiameterMetres:0.0#} m, and {b.DishDiameterMetres:0.0#} m"));
            }

            return found.ToImmutable();
        }
    }

    /// <summary>Line for line what both had of the pass; null where it is not one pass.</summary>
    public Both? Lines
    {
        get
        {
            if (!SamePass)
            {
                return null;
            }

            int shift = (int)Math.Round((B.Review.FromUtc - A.Review.FromUtc).TotalSeconds * LineLedger.LinesPerSecond);
            int first = Math.Max(0, shift);
            int end = Math.Min(A.Review.LineStates.Length, B.Review.LineStates.Length + shift);
            (LineState A, LineState B)[] pairs = [.. Enumerable.Range(first, Math.Max(0, end - first)).Select(i => (A.Review.LineStates[i], B.Review.LineStates[i - shift]))];
            return new Both(
                pairs.Length,
                pairs.Count(p => p is { A: LineState.Lost, B: LineState.Received }),
                pairs.Count(p => p is { A: LineState.Received, B: LineState.Lost }),
                pairs.Count(p => p is { A: LineState.Lost, B: LineState.Lost }));
        }
    }

    private static string Span(TimeSpan span) => span.Duration() switch
    {
        { TotalHours: < 2.0 } s => Text($"{s.TotalMinutes:0} min"),
        { TotalDays: < 2.0 } s => Text($"{s.TotalHours:0} h"),
        var s => Text($"{s.TotalDays:0} days"),
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>Lines of one pass that two sessions watched both.</summary>
/// <param name="Sent">Sent meanwhile.</param>
/// <param name="LostByA">Lost by A, received by B.</param>
/// <param name="LostByB">Lost by B, received by A.</param>
/// <param name="LostByBoth">Lost by both: what neither hand nor place made good.</param>
public sealed record Both(int Sent, int LostByA, int LostByB, int LostByBoth);
