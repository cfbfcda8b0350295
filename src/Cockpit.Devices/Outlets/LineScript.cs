using System.Globalization;
using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;

namespace Cockpit.Devices.Outlets;

/// <summary>The lines of a simulated sender, good ones and rubbish; the same seed gives the same lines.</summary>
/// <param name="settings">How the sender behaves.</param>
public sealed class LineScript(SenderSettings settings)
{
    private readonly Xoshiro256 _chance = new(settings.Seed);

    /// <summary>The next line with its line end.</summary>
    /// <param name="sample">What a good line says.</param>
    public byte[] Next(SignalSample sample) =>
        settings.RubbishShare > 0 && _chance.NextUnit() < settings.RubbishShare ? Rubbish() : Encoding.ASCII.GetBytes(Line(sample) + "\n");

    private string Line(SignalSample sample) => settings.Form switch
    {
        LineForm.Number => Number(sample.SteeringDb ?? 0),
        LineForm.Json => Json(sample),
        _ => SignalLine.Format(sample),
    };

    /// <summary>What senders really get wrong: wrong locale, no number, cut or endless lines, another protocol, line noise.</summary>
    private byte[] Rubbish() => _chance.NextBelow(7) switch
    {
        0 => "7,4\n"u8.ToArray(),
        1 => "snr=nan\n"u8.ToArray(),
        2 => "level=- sn\n"u8.ToArray(),
        3 => [.. Enumerable.Repeat((byte)'9', SignalLine.LongestLine + 1), (byte)'\n'],
        4 => "{\"snr\":\n"u8.ToArray(),
        5 => "GET / HTTP/1.1\r\n"u8.ToArray(),
        _ => Noise(),
    };

    private byte[] Noise()
    {
        byte[] noise = new byte[16];
        for (int i = 0; i < noise.Length - 1; i++)
        {
            // The upper half of the byte values: never a line end, never a number.
            noise[i] = (byte)(128 + _chance.NextBelow(128));
        }

        noise[^1] = (byte)'\n';
        return noise;
    }

    private static string Json(SignalSample sample)
    {
        IEnumerable<string> members = SignalLine.Format(sample).Split(' ').Select(pair => pair.Split('='))
            .Select(pair => pair[0] is "t" ? $"\"t\":\"{pair[1]}\"" : $"\"{pair[0]}\":{pair[1]}");
        return "{" + string.Join(',', members) + "}";
    }

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
