using System.Collections.Immutable;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares the search for passes with folder 03_passes: 72 h, six satellites, four stations, three elevations.</summary>
public static class PassTables
{
    private const string File = "03_passes/passes.csv";
    private const double FlatDegrees = 0.1; // below this height above the limit the time of rise is ill-conditioned
    private const double SteepDegrees = 85.0;

    private static readonly DateTimeOffset From = new(2026, 11, 25, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Every pass of the table must be found and no other; times, angles and closest approach are compared.</summary>
    /// <param name="scene">Satellites and stations.</param>
    /// <param name="passesCsv">Text of passes.csv.</param>
    public static ImmutableArray<TableCheck> Compare(ReferenceScene scene, string passesCsv)
    {
        ArgumentNullException.ThrowIfNull(scene);
        var tallies = new Tallies();
        ILookup<string, ReferenceRow> rows = ReferenceReader.Rows(passesCsv)
            .ToLookup(row => Key(row.Text("satellite"), row.Text("station"), row.Number("threshold_deg")), StringComparer.Ordinal);
        foreach (string satellite in scene.Satellites)
        {
            foreach (string station in scene.Stations)
            {
                SatelliteTrack track = scene.Track(satellite, station);
                foreach (double above in (ReadOnlySpan<double>)[0.0, 5.0, 10.0])
                {
                    Pass[] found = [.. PassSearch.Find(track, From, From.AddHours(72), Angle.FromDegrees(above))];
                    ReferenceRow[] wanted = [.. rows[Key(satellite, station, above)]];
                    tallies.Count.Add(found.Length, wanted.Length);
                    foreach ((Pass pass, ReferenceRow row) in found.Zip(wanted))
                    {
                        tallies.Add(track, pass, row, above);
                    }
                }
            }
        }

        return tallies.Results();
    }

    private static string Key(string satellite, string station, double above) => FormattableString.Invariant($"{satellite}|{station}|{above}");

    private sealed class Tallies
    {
        private readonly DifferenceTally _crossing = new(File, "rise, set", 0.010, "s");
        private readonly DifferenceTally _flat = new(File, "rise, set, less than 0.1 deg high", 1.0, "s");
        private readonly DifferenceTally _top = new(File, "culmination", 0.050, "s");
        private readonly DifferenceTally _steepTop = new(File, "culmination above 85 deg", 0.010, "s");
        private readonly DifferenceTally _elevation = new(File, "highest elevation", 1e-5, "deg");
        private readonly DifferenceTally _azimuth = new(File, "azimuth at rise, set", 1e-4, "deg");
        private readonly DifferenceTally _nearestTime = new(File, "closest approach", 0.010, "s");
        private readonly DifferenceTally _nearest = new(File, "range at closest approach", 1e-4, "km");

        public DifferenceTally Count { get; } = new(File, "passes listed, per search", 0.0, "passes");

        public void Add(SatelliteTrack track, Pass pass, ReferenceRow row, double above)
        {
            double top = row.Number("el_max_deg");
            bool flat = top - above < FlatDegrees;
            AddCrossing(flat, pass.Aos, row, "rise");
            AddCrossing(flat, pass.Los, row, "set");
            (top > SteepDegrees ? _steepTop : _top).Add((pass.Tca.Utc - ReferenceScene.Utc(row, "t_culm")).TotalSeconds);
            _elevation.Add(pass.Tca.Look.Elevation.Degrees, top);
            PassMoment? nearest = PassSearch.ClosestApproach(track, pass.Tca.Utc);
            _nearestTime.Add(nearest is { } n ? (n.Utc - ReferenceScene.Utc(row, "t_min_range")).TotalSeconds : double.NaN);
            _nearest.Add(nearest?.Look.RangeKm ?? double.NaN, row.Number("min_range_km"));
        }

        public ImmutableArray<TableCheck> Results() =>
        [
            Count.Result(), _crossing.Result(), _flat.Result(), _top.Result(), _steepTop.Result(),
            _elevation.Result(), _azimuth.Result(), _nearestTime.Result(), _nearest.Result(),
        ];

        private void AddCrossing(bool flat, PassMoment moment, ReferenceRow row, string which)
        {
            (flat ? _flat : _crossing).Add((moment.Utc - ReferenceScene.Utc(row, "t_" + which)).TotalSeconds);
            if (!flat)
            {
                _azimuth.AddDegrees(moment.Look.Azimuth.Degrees, row.Number($"az_{which}_deg"));
            }
        }
    }
}
