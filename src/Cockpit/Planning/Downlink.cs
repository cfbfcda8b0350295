using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Link;
using Cockpit.Core.Units;

namespace Cockpit.Planning;

/// <summary>One downlink of one satellite.</summary>
/// <param name="Satellite">Name or catalogue number, as it was written.</param>
/// <param name="Carrier">What the satellite sends on.</param>
/// <param name="Service">What it sends; null where nobody said.</param>
public sealed record Downlink(string Satellite, Frequency Carrier, Service? Service)
{
    /// <summary>How one is written.</summary>
    public const string Form = "SATELLITE=FREQ[,SERVICE]";

    /// <summary>Reads "PETREL 2=1701.3MHz,split-phase-665k"; what stands before the last = is the satellite.</summary>
    /// <param name="text">The text.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public static Parsed<Downlink> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        int at = text.LastIndexOf('=');
        if (at < 1 || string.IsNullOrWhiteSpace(text[..at]))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a downlink; write {Form}, like \"PETREL 2=1701.3MHz,{Service.SplitPhase665k.Name}\"");
        }

        string[] parts = text[(at + 1)..].Split(',', 2);
        if (!FrequencyText.Read(parts[0].Trim(), source).Try(out Frequency carrier, out ParseError? error))
        {
            return error;
        }

        Service? service = parts.Length == 2 ? Service.Named(parts[1].Trim()) : null;
        return parts.Length == 2 && service is null
            ? new ParseError(source, 0, 0, $"{Quoted.Of(parts[1].Trim())} is not a service; choose {string.Join(", ", Service.All.Select(one => one.Name))}")
            : new Downlink(text[..at].Trim(), carrier, service);
    }
}
