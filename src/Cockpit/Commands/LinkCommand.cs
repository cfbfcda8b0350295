using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Link;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>cockpit link: what a dish receives, line by line, from low in the sky to overhead.</summary>
public sealed class LinkCommand
{
    private const double UsualHeightKm = 830;

    private static readonly double[] Elevations = [5, 10, 15, 20, 30, 45, 60, 90];

    private readonly DishOptions _dish = new();
    private readonly Option<double?> _height = CommonOptions.Number(
        "--height", "KM", FormattableString.Invariant($"Height of the satellite's orbit; {UsualHeightKm} where missing"), 150, 40000);
    private readonly Option<OutputFormat> _format = CommonOptions.Format();

    private LinkCommand()
    {
    }

    /// <summary>The command.</summary>
    public static Command Create()
    {
        LinkCommand it = new();
        Command command = new(
            "link",
            """
            The budget of the link line by line, and what is left over what the service needs, against elevation.

            Each line is dB; the lines add up to C/N0 in dB-Hz. CSV and JSON hold a row for each elevation. The radiated power is known to a few dB
            only, so a margin of 3 dB may be none; what stays the same for one satellite is how it changes with elevation, dish and amplifier.

            Examples:
              cockpit link
              cockpit link --dish 0.6 --service qpsk-2333k --noise-figure 1.0
              cockpit link --height 850 --format csv
            """)
        {
            it._height, it._format,
        };
        it._dish.AddTo(command);
        command.SetAction(it.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        LinkModel model = _dish.Read(parsed);
        double height = parsed.GetValue(_height) ?? UsualHeightKm;
        OutputFormat format = parsed.GetValue(_format);
        LinkPoint[] points = [.. Elevations.Select(degrees => LinkPoint.At(model, Angle.FromDegrees(degrees), height))];
        TextWriter output = parsed.InvocationConfiguration.Output;
        if (format == OutputFormat.Table)
        {
            PrintTable(output, model, points, height);
        }
        else
        {
            PrintRows(output, format, points);
        }

        return 0;
    }

    private static void PrintRows(TextWriter output, OutputFormat format, LinkPoint[] points)
    {
        OutputColumn[] columns =
        [
            new("elevation_deg", null, 0), new("range_km", null, 0),
            .. points[0].Budget.Lines.Select(line => new OutputColumn(ColumnOf(line), null, 0)),
            new("cn0_dbhz", null, 0), new("required_dbhz", null, 0), new("margin_db", null, 0),
        ];
        OutputRows rows = new(output, format, columns);
        rows.Begin();
        foreach (LinkPoint point in points)
        {
            rows.Add(
            [
                Cell.Of(point.Elevation.Degrees, 0), Cell.Of(point.RangeKm, 1),
                .. point.Budget.Lines.Select(line => Cell.Of(line.Value.Value, 2)),
                Cell.Of(point.Budget.CarrierToNoiseDensity.Value, 2), Cell.Of(point.Budget.Required.Value, 2), Cell.Of(point.Budget.Margin.Value, 2),
            ]);
        }

        rows.End();
    }

    private static void PrintTable(TextWriter output, LinkModel model, LinkPoint[] points, double height)
    {
        OutputColumn[] columns =
        [
            new("line", "", -14), .. points.Select(point => new OutputColumn("", string.Create(CultureInfo.InvariantCulture, $"{point.Elevation.Degrees:0}°"), 7)), new("origin", "origin", -36),
        ];
        OutputRows rows = new(output, OutputFormat.Table, columns);
        void Line(string name, Func<LinkPoint, double> value, int decimals, string origin) =>
            rows.Add([Cell.Of(name), .. points.Select(point => Cell.Of(value(point), decimals)), Cell.Of(origin)]);

        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"dish {model.Dish.DiameterMetres:0.##} m, beam {model.Dish.BeamWidth(model.Carrier).Degrees:0.0}°, {model.Carrier.Megahertz:0.###} MHz, orbit {height:0} km, {model.Service.Words}"));
        rows.Begin();
        Line("range, km", point => point.RangeKm, 0, "circular orbit, round Earth");
        for (int k = 0; k < points[0].Budget.Lines.Length; k++)
        {
            int at = k;
            Line(points[0].Budget.Lines[k].Name, point => point.Budget.Lines[at].Value.Value, 1, points[0].Budget.Lines[k].Origin);
        }

        Line("C/N0, dB-Hz", point => point.Budget.CarrierToNoiseDensity.Value, 1, "the sum");
        Line("needed", point => point.Budget.Required.Value, 1, "the service, with the receiver's loss");
        Line("margin", point => point.Budget.Margin.Value, 1, string.Create(CultureInfo.InvariantCulture, $"± {points[0].Budget.Uncertainty.Value:0.#} dB, mostly the satellite"));
        rows.End();
    }

    private static string ColumnOf(LinkLine line) => line.Name switch
    {
        "EIRP" => "eirp_dbw",
        "free space" => "free_space_db",
        "G/T" => "g_over_t_dbk",
        "Boltzmann" => "boltzmann_db",
        string name => name + "_db",
    };

    /// <summary>The budget at one elevation.</summary>
    private sealed record LinkPoint(Angle Elevation, double RangeKm, LinkBudget Budget)
    {
        private const double EarthRadiusKm = 6371.0;

        public static LinkPoint At(LinkModel model, Angle elevation, double heightKm)
        {
            double up = EarthRadiusKm * Math.Sin(elevation.Radians);
            double range = Math.Sqrt((up * up) + (2 * EarthRadiusKm * heightKm) + (heightKm * heightKm)) - up;
            return new LinkPoint(elevation, range, model.Budget(elevation, range));
        }
    }
}
