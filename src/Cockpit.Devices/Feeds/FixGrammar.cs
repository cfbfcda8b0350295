using Cockpit.Core.Formats.Fixes;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>Place and time as a receiver of navigation satellites tells them: <see cref="Fix"/> to <see cref="PlaceFixed"/>, one a second; one for each feed.</summary>
/// <param name="reader">How its lines are read.</param>
public sealed class FixGrammar(IFixReader reader) : ILineGrammar
{
    private bool? _known;
    private DateTimeOffset? _second;

    /// <inheritdoc/>
    public int LongestLine => reader.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        FixReading read = reader.Read(line, feed);
        string? told = read.Told ?? (read.IsWithoutFix ? Changed(known: false) : read.Fix is null ? null : Changed(known: true));
        return new LineReading(read.Fix is { } fix && IsNew(fix) ? new PlaceFixed(feed, fix.Latitude, fix.Longitude, fix.HeightMetres, fix.DoubtMetres, fix.Utc) : null, read.Error, told);
    }

    /// <inheritdoc/>
    public string? Suspicion(ReadOnlySpan<byte> bytes) => bytes.IndexOfAnyExceptInRange((byte)' ', (byte)'~') is >= 0 and var at && bytes[at] is not ((byte)'\r' or (byte)'\n')
        ? "these bytes are no sentences: set the receiver to NMEA 0183, or give the speed of its line, like ?baud=4800"
        : null;

    private string? Changed(bool known)
    {
        bool changed = _known != known;
        bool had = _known == true;
        _known = known;
        return !changed ? null : known ? "knows its place" : had ? "does not know its place any more: give the receiver free sky" : "does not know its place yet: give the receiver free sky";
    }

    // A receiver may tell its place ten times a second, and in several sentences.
    private bool IsNew(Fix fix)
    {
        if (fix.Utc is not { } utc)
        {
            return true;
        }

        DateTimeOffset second = utc.AddTicks(-(utc.Ticks % TimeSpan.TicksPerSecond));
        bool isNew = second != _second;
        _second = second;
        return isNew;
    }
}
