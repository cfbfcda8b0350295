using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads a horizon mask: 200:12,240:18,300:5, or a file of azimuth and elevation, one pair a line.</summary>
public static class HorizonText
{
    private const int MostPoints = 3600;

    /// <summary>Reads pairs AZ:EL with commas between them, degrees.</summary>
    /// <param name="text">The pairs.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<HorizonMask> Read(string text, string source)
    {
        var gathering = new Gathering(source);
        foreach (string pair in text.Split(','))
        {
            if (gathering.Take(pair, pair.Split(':'), 0, "write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5") is { } error)
            {
                return error;
            }
        }

        return gathering.Result();
    }

    /// <summary>Reads one pair a line: two numbers with a blank, tab, comma, semicolon or colon between; # begins a comment.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="source">Name of the file, for the error.</param>
    public static Parsed<HorizonMask> ReadLines(IEnumerable<string> lines, string source)
    {
        var gathering = new Gathering(source);
        int number = 0;
        foreach (string line in lines)
        {
            number++;
            string text = line.Split('#')[0].Trim();
            if (text.Length == 0)
            {
                continue;
            }

            string[] parts = text.Split([' ', '\t', ',', ';', ':'], StringSplitOptions.RemoveEmptyEntries);
            if (gathering.Take(text, parts, number, "write an azimuth and an elevation in degrees, like 200 12") is { } error)
            {
                return error;
            }
        }

        return gathering.Result();
    }

    private sealed class Gathering(string source)
    {
        private readonly SortedDictionary<double, double> _points = [];

        public ParseError? Take(string text, string[] parts, int line, string wanted)
        {
            string? wrong = null;
            if (parts.Length != 2 || !NumberText.TryRead(parts[0], out double azimuth) || !NumberText.TryRead(parts[1], out double elevation))
            {
                wrong = $"{Quoted.Of(text)} is not a point of the horizon; {wanted}";
            }
            else if (azimuth is < 0 or > 360)
            {
                wrong = $"azimuth {parts[0].Trim()} is outside 0 to 360; {wanted}";
            }
            else if (elevation is < -10 or >= 90)
            {
                wrong = $"elevation {parts[1].Trim()} is outside -10 to below 90; {wanted}";
            }
            else if (!Add(azimuth == 360 ? 0 : azimuth, elevation))
            {
                wrong = $"azimuth {parts[0].Trim()} stands twice; write a step as two azimuths side by side, like 200 and 200.1";
            }
            else if (_points.Count > MostPoints)
            {
                wrong = $"there are more than {MostPoints} points; a tenth of a degree is fine enough";
            }

            return wrong is null ? null : new ParseError(source, line, 0, wrong);
        }

        public Parsed<HorizonMask> Result() => _points.Count > 0
            ? new HorizonMask(_points.Select(p => new HorizonPoint(Angle.FromDegrees(p.Key), Angle.FromDegrees(p.Value))))
            : new ParseError(source, 0, 0, "there is no point of the horizon in it; write an azimuth and an elevation in degrees a line, like 200 12");

        // North may be written as 0 and as 360 when both say the same.
        private bool Add(double azimuth, double elevation) => _points.TryAdd(azimuth, elevation) || (azimuth == 0 && _points[0] == elevation);
    }
}
