using System.Globalization;

namespace Cockpit.Devices.Feeds.Samples;

/// <summary>Compares the samples that really come in a second with what was said of them.</summary>
/// <param name="told">Samples a second as told.</param>
/// <param name="time">What it goes by.</param>
/// <remarks>
/// Senders come in bursts and clocks differ by parts in a million; what counts is a wrong number in an address. One that is off by 3 % is looked for
/// over 20 s, twice the same, because a sender that catches up slows down again; one that is off by more than any sender catches up, three times in 4 s.
/// A span ends when samples come, so that a burst is in it whole or not at all.
/// </remarks>
internal sealed class RateWatch(double told, TimeProvider time)
{
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Span = TimeSpan.FromSeconds(4);
    private const int SpansOfLook = 5;
    private const int SpansOfQuickLook = 3;
    private const double Tolerance = 0.03;
    private const double QuickTolerance = 0.15;
    private const double Agreement = 0.015;

    private readonly List<(long Samples, double Seconds)> _spans = [];
    private long? _begun;
    private long? _from;
    private long _samples;

    /// <summary>What is wrong, for people; null when nothing is, or nobody knows yet.</summary>
    public string? Remark { get; private set; }

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
            _spans.Add((_samples, passed.TotalSeconds));
            if (_spans.Count > 2 * SpansOfLook)
            {
                _spans.RemoveAt(0);
            }

            _from = now;
            _samples = 0;
            Remark = (Quick() ?? Slow()) is { } rate
                ? string.Create(CultureInfo.InvariantCulture, $"{rate / 1e6:0.00} Msps come, but {told / 1e6:0.00} Msps were told: is the rate right, or are samples lost?")
                : null;
        }
    }

    /// <summary>There was a gap of unknown length.</summary>
    public void Restart()
    {
        _begun = null;
        _from = null;
        _samples = 0;
        _spans.Clear();
    }

    private double? Quick()
    {
        double[] rates = [.. _spans.TakeLast(SpansOfQuickLook).Select(span => span.Samples / span.Seconds)];
        return rates.Length == SpansOfQuickLook && Array.TrueForAll(rates, rate => Math.Abs(rate - told) > QuickTolerance * told) && rates.Max() - rates.Min() < Agreement * told
            ? rates.Average()
            : null;
    }

    private double? Slow()
    {
        if (_spans.Count < 2 * SpansOfLook)
        {
            return null;
        }

        double before = RateOf(_spans.Take(SpansOfLook)), after = RateOf(_spans.Skip(SpansOfLook));
        return IsOff(before) && IsOff(after) && Math.Abs(before - after) < Agreement * told ? after : null;
    }

    private bool IsOff(double rate) => Math.Abs(rate - told) > Tolerance * told;

    private static double RateOf(IEnumerable<(long Samples, double Seconds)> spans) => spans.Sum(span => (double)span.Samples) / spans.Sum(span => span.Seconds);
}
