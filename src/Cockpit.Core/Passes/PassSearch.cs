using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Passes;

/// <summary>Finds the passes of a satellite over a station: every one, none twice, also grazing ones and ones that never end.</summary>
/// <remarks>
/// Rise and set are accurate to 1e-6 s of the model, culmination to 0.1 ms. Elevations are geometric. A skyline that
/// interrupts a pass makes two of it. Results come lazily, in order of time.
/// </remarks>
public static class PassSearch
{
    private const double MaskStepSeconds = 5.0;

    /// <summary>A pass counts from 5 degrees on: below, air and ground take what is left (common practice, no source).</summary>
    public static Angle UsualElevation { get; } = Angle.FromDegrees(5);

    // A pass that is running is followed back and forth this far for its true rise and set.
    private static readonly TimeSpan LongestPass = TimeSpan.FromDays(1);

    /// <summary>The passes inside a span; one that is running at either end is cut there and says so.</summary>
    /// <param name="track">The satellite over the station.</param>
    /// <param name="from">Start of the span, UTC.</param>
    /// <param name="to">End of the span, UTC.</param>
    /// <param name="minimumElevation">The lowest elevation that counts, (-90°, 90°).</param>
    /// <param name="horizon">What hides the sky; null for a free one. The higher of the two limits counts.</param>
    /// <exception cref="ArgumentException">The span ends before it begins, or the elevation is out of range.</exception>
    public static IEnumerable<Pass> Find(
        SatelliteTrack track, DateTimeOffset from, DateTimeOffset to, Angle minimumElevation, HorizonMask? horizon = null)
    {
        ArgumentNullException.ThrowIfNull(track);
        if (to < from)
        {
            throw new ArgumentException("the span ends before it begins", nameof(to));
        }

        if (!(minimumElevation.Degrees is > -90.0 and < 90.0))
        {
            throw new ArgumentException("the lowest elevation must lie between -90 and 90 degrees", nameof(minimumElevation));
        }

        HorizonMask mask = horizon?.RaisedTo(minimumElevation) ?? HorizonMask.Flat(minimumElevation);
        return FindAbove(track, from, (to - from).TotalSeconds, mask);
    }

    /// <summary>The passes that overlap a span, whole: from their true rise to their true set, where these come within a day.</summary>
    /// <inheritdoc cref="Find"/>
    public static IEnumerable<Pass> Overlapping(
        SatelliteTrack track, DateTimeOffset from, DateTimeOffset to, Angle minimumElevation, HorizonMask? horizon = null) =>
        Find(track, from, to, minimumElevation, horizon).Select(pass =>
        {
            Pass whole = pass;
            if (pass.CutAtStart && Find(track, from - LongestPass, from, minimumElevation, horizon).LastOrDefault() is { CutAtStart: false, CutAtEnd: true } head)
            {
                whole = whole with { Aos = head.Aos, Tca = Higher(head.Tca, whole.Tca), CutAtStart = false };
            }

            if (pass.CutAtEnd && Find(track, to, to + LongestPass, minimumElevation, horizon).FirstOrDefault() is { CutAtStart: true, CutAtEnd: false } tail)
            {
                whole = whole with { Los = tail.Los, Tca = Higher(whole.Tca, tail.Tca), CutAtEnd = false };
            }

            return whole;
        });

    /// <summary>The pass that is running, or else the next one; null when there is none before the horizon of days.</summary>
    /// <param name="track">The satellite over the station.</param>
    /// <param name="from">Now, UTC.</param>
    /// <param name="days">How far to look ahead.</param>
    /// <param name="minimumElevation">The lowest elevation that counts.</param>
    /// <param name="horizon">What hides the sky; null for a free one.</param>
    /// <returns>The whole pass, from its true rise where that was within the last day.</returns>
    public static Pass? Next(SatelliteTrack track, DateTimeOffset from, double days, Angle minimumElevation, HorizonMask? horizon = null) =>
        Overlapping(track, from, from.AddDays(days), minimumElevation, horizon).FirstOrDefault();

    /// <summary>When the satellite is closest, within ten minutes around a culmination: there the Doppler shift is zero.</summary>
    /// <param name="track">The satellite over the station.</param>
    /// <param name="culmination">About when, UTC.</param>
    /// <returns>The moment, to 0.1 ms; null where the range has no least value there (a satellite that hardly moves).</returns>
    public static PassMoment? ClosestApproach(SatelliteTrack track, DateTimeOffset culmination)
    {
        ArgumentNullException.ThrowIfNull(track);
        const double reach = 600.0;
        var path = new SkyPath(track, JulianDate.FromUtc(culmination));
        if (!path.TryAt(-reach, out PathPoint before) || !path.TryAt(reach, out PathPoint after) || before.RangeRate >= 0.0 || after.RangeRate <= 0.0)
        {
            return null;
        }

        return MomentAt(track, culmination, BracketedRoot.Between(t => path.At(t).RangeRate, -reach, reach));
    }

    private static IEnumerable<Pass> FindAbove(SatelliteTrack track, DateTimeOffset from, double duration, HorizonMask mask)
    {
        var path = new SkyPath(track, JulianDate.FromUtc(from));
        MaskCut? cut = mask.IsFlat ? null : new MaskCut(path, mask, MaskStepSeconds);
        foreach (Climb climb in new ClimbSearch(path, duration, mask.Lowest.Radians).All())
        {
            foreach (AboveSpan span in cut?.Of(climb.Span) ?? [climb.Span])
            {
                yield return PassOf(track, from, path, span, climb.Tops);
            }
        }
    }

    private static Pass PassOf(SatelliteTrack track, DateTimeOffset from, SkyPath path, AboveSpan span, IReadOnlyList<double> tops)
    {
        double highest = tops
            .Where(t => t > span.Start && t < span.End)
            .Append(span.Start)
            .Append(span.End)
            .MaxBy(t => path.At(t).Elevation);
        return new Pass(
            MomentAt(track, from, span.Start),
            MomentAt(track, from, highest),
            MomentAt(track, from, span.End),
            span.CutAtStart,
            span.CutAtEnd);
    }

    private static PassMoment MomentAt(SatelliteTrack track, DateTimeOffset from, double seconds)
    {
        DateTimeOffset utc = from.AddTicks((long)Math.Round(seconds * TimeSpan.TicksPerSecond));
        return new PassMoment(utc, track.At(utc) ?? throw new InvalidOperationException("the orbit model lost a moment that it had"));
    }

    private static PassMoment Higher(PassMoment a, PassMoment b) => a.Look.Elevation >= b.Look.Elevation ? a : b;
}
