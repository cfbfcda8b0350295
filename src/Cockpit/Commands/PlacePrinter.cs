using System.Globalization;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Devices.Clocks;
using Cockpit.Devices.Feeds;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Commands;

/// <summary>Prints each place that a receiver tells, and at the end the station and what the clock of this computer is worth.</summary>
/// <param name="output">For the places, and the station.</param>
/// <param name="complaints">For what happens to the receiver.</param>
/// <param name="clock">This computer's clock.</param>
internal sealed class PlacePrinter(TextWriter output, TextWriter complaints, TimeProvider clock) : ILineTaker
{
    private const int MostKept = 100_000;

    private readonly Lock _gate = new();
    private readonly List<PlaceFixed> _places = [];
    private readonly StampedArrivals _stamps = new();
    private readonly long _begun = clock.GetTimestamp();
    private bool _ended;

    /// <summary>Places so far.</summary>
    public int Places => _places.Count;

    /// <inheritdoc/>
    public void Connected(string where) => Tell($"connected: {where}");

    /// <inheritdoc/>
    public void Lost(string reason) => Tell(reason);

    /// <inheritdoc/>
    public void Dropped(string reason) => Tell(reason);

    /// <inheritdoc/>
    public void Came(ReadOnlySpan<byte> line, in LineReading reading)
    {
        if (reading.Told is { } told)
        {
            Tell($"the receiver {told}");
        }

        if (reading.Error is { } error)
        {
            Tell(string.Create(CultureInfo.InvariantCulture, $"column {error.Column}: {error.Message}"));
        }

        lock (_gate)
        {
            if (_ended || reading.Reading is not PlaceFixed place || _places.Count >= MostKept)
            {
                return;
            }

            _places.Add(place);
            if (place.Utc is { } utc)
            {
                _stamps.Came(clock.GetElapsedTime(_begun), clock.GetUtcNow(), utc);
            }

            output.WriteLine(LineOf(place));
        }
    }

    /// <summary>The last lines: the option to be given, and the clock.</summary>
    public IReadOnlyList<string> End()
    {
        lock (_gate)
        {
            _ended = true;
            return [.. new[] { Station(), Clock() }.OfType<string>()];
        }
    }

    // Of many the middle one: a receiver that has just found its satellites jumps about.
    private string? Station() => _places.Count == 0 ? null : "--station " + new PlaceNow(
        Angle.FromRadians(Middle(_places.Select(place => place.Latitude.Radians))),
        Angle.FromRadians(Middle(_places.Select(place => place.Longitude.Radians))),
        _places.Exists(place => place.HeightMetres is not null) ? Middle(_places.Select(place => place.HeightMetres).OfType<double>()) : null,
        0,
        IsFar: false).AsOption;

    private string? Clock()
    {
        if (_stamps.Difference() is not { } difference)
        {
            return null;
        }

        double behind = (difference + StampClock.ReceiverLateness).TotalSeconds;
        return string.Create(CultureInfo.InvariantCulture, $"this computer's clock is {Math.Abs(behind):0.0} s {(behind < 0 ? "ahead" : "behind")}, good to {StampClock.ReceiverDoubt.TotalSeconds:0.0} s");
    }

    private static double Middle(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static string LineOf(PlaceFixed place)
    {
        string when = place.Utc is { } utc ? string.Create(CultureInfo.InvariantCulture, $"{utc:yyyy-MM-dd HH:mm:ss'Z'}") : "the day is not known ";
        string height = place.HeightMetres is { } metres ? string.Create(CultureInfo.InvariantCulture, $"  {metres,7:0.0} m") : "";
        string doubt = place.DoubtMetres is { } off ? string.Create(CultureInfo.InvariantCulture, $"  ±{off:0} m") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{when}  {place.Latitude.Degrees,10:0.000000}  {place.Longitude.Degrees,11:0.000000}{height}{doubt}");
    }

    private void Tell(string sentence)
    {
        lock (_gate)
        {
            if (!_ended)
            {
                complaints.WriteLine(sentence);
            }
        }
    }
}
