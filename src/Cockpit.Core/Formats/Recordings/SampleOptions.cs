using System.Globalization;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats.Options;

namespace Cockpit.Core.Formats.Recordings;

/// <summary>What stands behind the ? of an address of samples: what the samples are, as far as nothing else tells it.</summary>
/// <param name="Format">How they stand in bytes.</param>
/// <param name="SampleRate">Samples a second.</param>
/// <param name="CentreHz">Frequency at 0 Hz of the samples.</param>
/// <param name="Start">Time of the first sample.</param>
/// <param name="SkipBytes">Bytes before the first sample that are no samples.</param>
/// <param name="Exchanged">Quadrature comes first.</param>
/// <param name="FromEnd">Of a file that is there already, only what comes from now on.</param>
/// <param name="FromStart">Of a file that is there already, also all that it holds, and nothing is passed over.</param>
/// <param name="Newest">Of what piles up while it cannot be measured in time only the newest is taken; nothing that a person writes.</param>
public sealed record SampleOptions(
    SampleFormat? Format = null,
    double? SampleRate = null,
    double? CentreHz = null,
    DateTimeOffset? Start = null,
    long SkipBytes = 0,
    bool Exchanged = false,
    bool FromEnd = false,
    bool FromStart = false,
    bool Newest = false)
{
    /// <summary>The options, for help texts.</summary>
    public const string Forms = "format=ci16, rate=3000000 (or 3Msps), center=1701300000 (or 1701.3MHz), start=UTC, skip=BYTES, order=qi, from=start|end";

    private const long MostSkipped = 1 << 20;

    /// <summary>Parts an address from its options and reads those.</summary>
    /// <param name="address">Address, then perhaps ? and options with &amp; between them.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    /// <returns>The address without options, and the options.</returns>
    public static Parsed<(string Address, SampleOptions Options)> Split(string address, string source)
    {
        int mark = address.LastIndexOf('?');
        if (mark < 0 || !address.AsSpan(mark).Contains('='))
        {
            return (address, new SampleOptions());
        }

        SampleOptions options = new();
        foreach (string option in address[(mark + 1)..].Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            int equals = option.IndexOf('=', StringComparison.Ordinal);
            string key = equals < 0 ? option : option[..equals];
            string value = equals < 0 ? "" : Uri.UnescapeDataString(option[(equals + 1)..]);
            if (!options.With(key, value, source).Try(out SampleOptions? next, out ParseError? error))
            {
                return error;
            }

            options = next;
        }

        return (address[..mark], options);
    }

    /// <summary>Reads samples a second: a bare number, or one with sps, ksps, Msps, kHz, MHz behind it.</summary>
    public static Parsed<double> ReadRate(string text, string source) =>
        Scaled(text) is { } rate && rate is >= SampleLayout.LeastRate and <= SampleLayout.MostRate
            ? rate
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a sample rate; write samples a second from 100000 to 40000000, like rate=3000000 or rate=3Msps");

    private Parsed<SampleOptions> With(string key, string value, string source)
    {
        switch (key)
        {
            case "format":
                return SampleFormatText.Read(value, source).Try(out SampleFormat format, out ParseError? error) ? this with { Format = format } : error;
            case "rate":
                return ReadRate(value, source).Try(out double rate, out error) ? this with { SampleRate = rate } : error;
            case "center" or "centre":
                return Scaled(value) is { } hz && hz is > 0 and <= 1e12
                    ? this with { CentreHz = hz }
                    : new ParseError(source, 0, 0, $"{Quoted.Of(value)} is not a centre frequency; write hertz, like center=1701300000, or center=1701.3MHz");
            case "start":
                return InstantText.Read(value, source).Try(out DateTimeOffset start, out error) ? this with { Start = start } : error;
            case "skip":
                return long.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out long skip) && skip <= MostSkipped
                    ? this with { SkipBytes = skip }
                    : new ParseError(source, 0, 0, $"{Quoted.Of(value)} is not a number of bytes to skip; write 0 to {MostSkipped}");
            case "order":
                return value is "iq" or "qi"
                    ? this with { Exchanged = value is "qi" }
                    : new ParseError(source, 0, 0, $"{Quoted.Of(value)} is not an order of components; write order=iq or order=qi");
            case "from":
                return value is "start" or "end"
                    ? this with { FromEnd = value is "end", FromStart = value is "start" }
                    : new ParseError(source, 0, 0, $"{Quoted.Of(value)} is not a place to read from; write from=start or from=end");
            default:
                return new ParseError(source, 0, 0, $"{Quoted.Of(key)} is not an option of samples; there are {Forms}");
        }
    }

    private static double? Scaled(string text)
    {
        int digits = 0;
        while (digits < text.Length && (char.IsAsciiDigit(text[digits]) || text[digits] is '.' or '+' or '-' or 'e' or 'E'))
        {
            digits++;
        }

        double scale = text[digits..].Trim().ToUpperInvariant() switch
        {
            "" or "HZ" or "SPS" or "S/S" => 1,
            "K" or "KHZ" or "KSPS" or "KS/S" => 1e3,
            "M" or "MHZ" or "MSPS" or "MS/S" => 1e6,
            "G" or "GHZ" => 1e9,
            _ => double.NaN,
        };
        return double.TryParse(text.AsSpan(0, digits), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number * scale)
            ? number * scale
            : null;
    }
}
