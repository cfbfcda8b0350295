using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>cockpit look --ground: the point below a satellite and the edges of its instrument's scan.</summary>
/// <param name="output">Where to.</param>
/// <param name="format">How.</param>
/// <param name="halfAngle">The scan to either side of the vertical.</param>
/// <param name="ut1MinusUtcSeconds">UT1 - UTC, s.</param>
internal sealed class GroundListing(TextWriter output, OutputFormat format, Angle halfAngle, double ut1MinusUtcSeconds)
{
    private static readonly OutputColumn[] Columns =
    [
        new("satellite", "satellite", -14), new("catalog_number", "number", 9), new("utc", "UTC", -19),
        new("sub_lat_deg", "below lat", 9), new("sub_lon_deg", "lon", 8), new("height_km", "height km", 9),
        new("left_lat_deg", "left lat", 8), new("left_lon_deg", "lon", 8), new("right_lat_deg", "right lat", 9), new("right_lon_deg", "lon", 8),
    ];

    /// <summary>Prints a row for each satellite and instant.</summary>
    /// <param name="satellites">At least one.</param>
    /// <param name="instants">When.</param>
    /// <param name="complaints">Where instants without an answer are told.</param>
    /// <returns>Whether at least one row has an answer.</returns>
    public bool Print(ImmutableArray<Sgp4> satellites, LookInstants instants, TextWriter complaints)
    {
        var rows = new OutputRows(output, format, Columns);
        bool answered = false;
        rows.Begin();
        foreach (Sgp4 satellite in satellites)
        {
            PropagationStatus worst = PropagationStatus.Good;
            foreach ((JulianDate utc, double minutes) in instants.For(satellite.Elements))
            {
                PropagationStatus status = satellite.Propagate(minutes, out TemeState teme);
                worst = status == PropagationStatus.Good ? worst : status;
                ScanLine? line = status == PropagationStatus.Good
                    ? new ScanLine(EcefState.FromTeme(teme, SiderealTime.Greenwich(utc.AddSeconds(ut1MinusUtcSeconds))))
                    : null;
                answered |= line is not null;
                Add(rows, satellite.Elements, utc, line);
            }

            if (worst != PropagationStatus.Good)
            {
                complaints.WriteLine($"{satellite.Elements.Name}: some instants have no answer: {worst.Describe()}");
            }
        }

        rows.End();
        return answered;
    }

    private void Add(OutputRows rows, ElementSet elements, JulianDate utc, ScanLine? line)
    {
        Site? left = line?.At(-halfAngle);
        Site? right = line?.At(halfAngle);
        static Cell Degrees(Angle? angle) => Cell.Of(angle?.Degrees, 6, 3);
        rows.Add(
            Cell.Of(elements.Name), Cell.Of(elements.CatalogNumber), Cell.Of(utc.ToUtc(), 6),
            Degrees(line?.SubPoint.Latitude), Degrees(line?.SubPoint.Longitude), Cell.Of(line?.HeightKm, 4, 1),
            Degrees(left?.Latitude), Degrees(left?.Longitude), Degrees(right?.Latitude), Degrees(right?.Longitude));
    }
}
