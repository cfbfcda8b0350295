using System.Globalization;

namespace Cockpit.Devices.Feeds.Samples;

/// <summary>Compares the samples that really come in a second with what was said of them.</summary>
/// <param name="told">Samples a second as told.</param>
/// <param name="time">What it goes by.</param>
/// <remarks>Senders come in bursts and clocks differ by parts in a million; what counts is a wrong number in an address, so 3 % over 20 s is looked for, twice the same: a sender that catches up slows down again.</remarks>
internal sealed class RateWatch(double told, TimeProvider time)
{
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Span = TimeSpan.FromSeconds(20);
    private const double Tolerance = 0.03;
    private const double Agreement = 0.015;

    private long? _begun;
    private long? _from;
    private long _samples;
    private double? _measured;
    private double? _before;

    /// <summary>What is wrong, for people; null when nothing is, or nobody knows yet.</summary>
    public string? Remark => _measured is { } rate && _before is { } before && IsOff(rate) && IsOff(before) && Math.Abs(rate - before) < Agreement * told
        ? string.Create(CultureInfo.InvariantCulture, $"{rate / 1e6:0.00} Msps come, but {told / 1e6:0.00} Msps were told: is the rate right, or are samples lost?")
        : null;

    /// <summary>Samples came, or are known to be missing.</summary>
    public void Came(long samples)
    {
        long now = time.GetTimestamp();
        _begun ??= now;
        if (_from is null)
        {
            _from = time.GetElapsedTime(_begun.Value, now) >= Settling ? now : null;
            return;
        }

        _samples += samples;
        TimeSpan passed = time.GetElapsedTime(_from.Value, now);
        if (passed >= Span)
        {
            _before = _measured;
            _measured = _samples / passed.TotalSeconds;
            _from = now;
            _samples = 0;
        }
    }

    /// <summary>There was a gap of unknown length.</summary>
    public void Restart()
    {
        _begun = null;
        _from = null;
        _samples = 0;
    }

    private bool IsOff(double rate) => Math.Abs(rate - told) > Tolerance * told;
}
