using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit look: where satellites, the sun or the moon stand at given instants.</summary>
public sealed class LookCommand
{
    private const int MostWarnings = 5;

    /// <summary>A month: tens to a hundred kilometres along the track (common practice, no source).</summary>
    private static readonly TimeSpan OldElements = TimeSpan.FromDays(30);

    private static readonly OutputColumn[] SkyColumns =
    [
        new("satellite", "satellite", -14), new("catalog_number", "number", 9), new("utc", "UTC", -19),
        new("azimuth_deg", "azimuth", 8), new("elevation_deg", "elevation", 9), new("range_km", "range km", 10),
        new("range_rate_km_s", "rate km/s", 9), new("doppler_hz", "Doppler Hz", 10),
        new("elements_age_days", "age d", 7, InCsv: false),
    ];

    private static readonly OutputColumn[] TemeColumns =
    [
        new("satellite", "satellite", -14), new("catalog_number", "number", 9), new("utc", "UTC", -19), new("minutes_since_epoch", "minutes", 12),
        new("error_code", "code", 4), new("x_km", "x km", 13), new("y_km", "y km", 13), new("z_km", "z km", 13),
        new("vx_km_s", "vx km/s", 10), new("vy_km_s", "vy km/s", 10), new("vz_km_s", "vz km/s", 10),
    ];

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<SkyBody?> _body = CommonOptions.Value<SkyBody>("--body", "sun|moon", "The sun or the moon in place of elements", ReadBody);
    private readonly Option<bool> _teme = new("--teme") { Description = "Position and velocity as the orbit model gives them (TEME), no station needed" };
    private readonly Option<bool> _ground = new("--ground") { Description = "The point below and the edges of the instrument's scan, no station needed" };
    private readonly Option<Angle?> _halfAngle = CommonOptions.Value(
        "--half-angle", "DEG", "With --ground: the scan to either side of the vertical, 55.4 where missing", (text, source) => AngleText.Read(text, source, 0.0, 89.9));
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<double?> _dut1 = CommonOptions.Dut1();
    private readonly Option<bool> _refraction = CommonOptions.Refraction();
    private readonly Option<OutputFormat> _format = CommonOptions.Format(OutputFormat.Csv);
    private readonly LookInstantOptions _instants;

    private LookCommand(TimeProvider clock)
    {
        _instants = new LookInstantOptions(clock);
    }

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no instant was given.</param>
    public static Command Create(TimeProvider clock)
    {
        var it = new LookCommand(clock);
        var command = new Command(
            "look",
            """
            Say where a satellite, the sun or the moon stands at given instants.

            Examples:
              cockpit look --elements elements.tle --satellite "PETREL 2" --station 47.8,11.2,520
              cockpit look --elements elements.tle --station 47.8,11.2 --from 2026-11-25T10:15:00Z --step 10s --for 15m --frequency 1701.5MHz
              cockpit look --elements elements.tle --teme --since-epoch=-10,0,1440
              cockpit look --elements elements.tle --ground --at 2026-11-25T10:15:00Z --half-angle 55.4
              cockpit look --body sun --station 47.8,11.2 --at 2026-11-25T12:00:00Z --format table
            """)
        {
            it._elements, it._satellite, it._station, it._body, it._teme, it._ground, it._halfAngle, it._carrier, it._dut1, it._refraction, it._format,
        };
        it._instants.AddTo(command);
        command.SetAction(it.Run);
        return command;
    }

    private static Parsed<SkyBody> ReadBody(string text, string source) => text switch
    {
        "sun" => SkyBody.Sun,
        "moon" => SkyBody.Moon,
        _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a body of the sky here; choose sun or moon"),
    };

    private int Run(ParseResult parsed)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (Contradiction(parsed) is { } wrong)
        {
            complaints.WriteLine(wrong);
            return CommandRoot.WrongInput;
        }

        if (!_instants.Read(parsed).Try(out LookInstants? instants, out ParseError? error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        if (parsed.GetValue(_body) is { } body)
        {
            return RunBody(parsed, body, instants);
        }

        if (!SatelliteChoice.Read(parsed.GetValue(_elements)!, parsed.GetValue(_satellite), complaints).Try(out ImmutableArray<Sgp4> satellites, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        WarnOfOldElements(satellites, instants, complaints);
        return parsed.GetValue(_teme) ? RunTeme(parsed, satellites, instants)
            : parsed.GetValue(_ground) ? RunGround(parsed, satellites, instants)
            : RunSky(parsed, satellites, instants);
    }

    /// <summary>A set of another year is worked out like any other; it must be said that the answer means nothing.</summary>
    private static void WarnOfOldElements(ImmutableArray<Sgp4> satellites, LookInstants instants, TextWriter complaints)
    {
        DateTimeOffset[] asked = [.. instants.AsUtc().Take(1)];
        if (asked.Length == 0)
        {
            return;
        }

        ElementSet[] old = [.. satellites.Select(satellite => satellite.Elements).Where(set => (asked[0] - set.EpochUtc).Duration() > OldElements)];
        foreach (ElementSet set in old.Take(MostWarnings))
        {
            complaints.WriteLine(FormattableString.Invariant(
                $"warning: the elements of {set.Name.Trim()} are of {set.EpochUtc:yyyy-MM-dd}, {(asked[0] - set.EpochUtc).Duration().TotalDays:0} days away from the instant; it is not where they say, get newer ones"));
        }

        if (old.Length > MostWarnings)
        {
            complaints.WriteLine(FormattableString.Invariant($"warning: so are those of {old.Length - MostWarnings} more"));
        }
    }

    private string? Contradiction(ParseResult parsed)
    {
        bool body = parsed.GetValue(_body) is not null;
        bool teme = parsed.GetValue(_teme);
        bool ground = parsed.GetValue(_ground);
        bool elements = parsed.GetValue(_elements) is not null;
        return body && (teme || elements) ? "--body stands in place of --elements and has no --teme; leave one of them out"
            : body && ground ? "--ground is for satellites, and --body is none; leave one of them out"
            : teme && ground ? "--teme and --ground print different things; leave one of them out"
            : !ground && parsed.GetValue(_halfAngle) is not null ? "--half-angle goes with --ground; add it"
            : !body && !elements ? "--elements FILE is needed (or --body sun|moon)"
            : !teme && !ground && parsed.GetValue(_station) is null ? "--station LAT,LON[,ALT_M] is needed: where do you stand?"
            : null;
    }

    private int RunGround(ParseResult parsed, ImmutableArray<Sgp4> satellites, LookInstants instants)
    {
        var listing = new GroundListing(
            parsed.InvocationConfiguration.Output,
            parsed.GetValue(_format),
            parsed.GetValue(_halfAngle) ?? ScanLine.UsualHalfAngle,
            parsed.GetValue(_dut1) ?? 0.0);
        return listing.Print(satellites, instants, parsed.InvocationConfiguration.Error) ? 0 : CommandRoot.Failed;
    }

    private int RunTeme(ParseResult parsed, ImmutableArray<Sgp4> satellites, LookInstants instants)
    {
        var rows = new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(_format), TemeColumns);
        rows.Begin();
        foreach (Sgp4 satellite in satellites)
        {
            foreach ((JulianDate utc, double minutes) in instants.For(satellite.Elements))
            {
                PropagationStatus status = satellite.Propagate(minutes, out TemeState s);
                Cell Number(double value, int decimals, int few) => Cell.Of(status == PropagationStatus.Good ? value : null, decimals, few);
                rows.Add(
                    Cell.Of(satellite.Elements.Name), Cell.Of(satellite.Elements.CatalogNumber), Cell.Of(utc.ToUtc(), 6), Cell.Of(minutes, 9, 3), Cell.Of((int)status),
                    Number(s.X, 9, 4), Number(s.Y, 9, 4), Number(s.Z, 9, 4), Number(s.Vx, 12, 6), Number(s.Vy, 12, 6), Number(s.Vz, 12, 6));
            }
        }

        rows.End();
        return 0;
    }

    private int RunSky(ParseResult parsed, ImmutableArray<Sgp4> satellites, LookInstants instants)
    {
        var printing = new Printing(this, parsed);
        printing.Rows.Begin();
        foreach (Sgp4 satellite in satellites)
        {
            var track = new SatelliteTrack(satellite, printing.Station, parsed.GetValue(_dut1) ?? 0.0);
            PropagationStatus worst = PropagationStatus.Good;
            foreach ((JulianDate utc, double minutes) in instants.For(satellite.Elements))
            {
                PropagationStatus status = track.Propagate(utc, out LookAngles look);
                worst = status == PropagationStatus.Good ? worst : status;
                printing.Add(satellite.Elements.Name, satellite.Elements.CatalogNumber, utc.ToUtc(), status == PropagationStatus.Good ? look : null, minutes / 1440.0);
            }

            if (worst != PropagationStatus.Good)
            {
                parsed.InvocationConfiguration.Error.WriteLine($"{satellite.Elements.Name}: some instants have no answer: {worst.Describe()}");
            }
        }

        printing.Rows.End();
        return printing.Answered ? 0 : CommandRoot.Failed;
    }

    private int RunBody(ParseResult parsed, SkyBody body, LookInstants instants)
    {
        if (instants.UtcOf is null)
        {
            parsed.InvocationConfiguration.Error.WriteLine("--since-epoch counts from the epoch of elements, and the sky's bodies have none; use --at");
            return CommandRoot.WrongInput;
        }

        var printing = new Printing(this, parsed);
        var track = new BodyTrack(body, printing.Station);
        printing.Rows.Begin();
        foreach (DateTimeOffset utc in instants.AsUtc())
        {
            printing.Add(body == SkyBody.Sun ? "sun" : "moon", null, utc, track.At(utc), null);
        }

        printing.Rows.End();
        return 0;
    }

    private sealed class Printing(LookCommand command, ParseResult parsed)
    {
        private readonly Frequency? _carrier = parsed.GetValue(command._carrier);
        private readonly bool _refraction = parsed.GetValue(command._refraction);

        public OutputRows Rows { get; } = new(parsed.InvocationConfiguration.Output, parsed.GetValue(command._format), SkyColumns);

        public Site Station { get; } = parsed.GetValue(command._station)!.Value;

        public bool Answered { get; private set; }

        public void Add(string name, int? number, DateTimeOffset utc, LookAngles? look, double? ageDays)
        {
            Answered |= look is not null;
            Angle? elevation = look is { } seen && _refraction
                ? Refraction.ApparentRadioElevation(seen.Elevation, Station.HeightMetres / 1e3)
                : look?.Elevation;
            double? doppler = look is { } l && _carrier is { } carrier ? Doppler.Shift(carrier, l.RangeRateKmPerSec).Hertz : null;
            Rows.Add(
                Cell.Of(name), Cell.Of(number), Cell.Of(utc, 6), Cell.Of(look?.Azimuth.Degrees, 8, 3), Cell.Of(elevation?.Degrees, 8, 3),
                Cell.Of(look?.RangeKm, 7, 3), Cell.Of(look?.RangeRateKmPerSec, 10, 5), Cell.Of(doppler, 3, 0), Cell.Of(ageDays, 4, 2));
        }
    }
}
