using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;

namespace Cockpit.Session.Review;

/// <summary>The way of the satellite over the sky, measured along itself.</summary>
internal sealed class SkyWay
{
    private readonly double[] _starts;
    private readonly double[] _lengths;
    private readonly LookAngles[] _looks;

    private SkyWay(double[] starts, double[] lengths, LookAngles[] looks)
    {
        _starts = starts;
        _lengths = lengths;
        _looks = looks;
    }

    /// <summary>Measures the way; half seconds without a look are left out.</summary>
    public static SkyWay Of(ImmutableArray<ReviewBlock> blocks)
    {
        (double Start, LookAngles Look)[] seen = [.. blocks.Where(b => b.Look is not null).Select(b => (b.Start, b.Look.GetValueOrDefault()))];
        double[] lengths = new double[seen.Length];
        for (int i = 1; i < seen.Length; i++)
        {
            (LookAngles a, LookAngles b) = (seen[i - 1].Look, seen[i].Look);
            lengths[i] = lengths[i - 1] + AimErrors.Separation(a.Azimuth, a.Elevation, b.Azimuth, b.Elevation).Degrees;
        }

        return new SkyWay([.. seen.Select(s => s.Start)], lengths, [.. seen.Select(s => s.Look)]);
    }

    /// <summary>How far along the way the satellite is, degrees.</summary>
    /// <param name="at">Begin of a half second, session time, seconds.</param>
    public double At(double at) => _lengths.Length == 0 ? 0.0 : _lengths[IndexOf(at)];

    /// <summary>The part of a nudge along the way, degrees.</summary>
    /// <param name="call">The nudge.</param>
    public double Along(ReviewCall call)
    {
        if (_looks.Length < 2)
        {
            return 0.0;
        }

        int now = IndexOf(call.At);
        int soon = IndexOf(call.At + 5.0);
        now = soon == now ? Math.Max(0, now - 1) : now;
        AimError way = AimErrors.Between(_looks[now].Azimuth, _looks[now].Elevation, _looks[soon].Azimuth, _looks[soon].Elevation);
        double length = way.Total.Radians;
        return length > 0.0 ? ((call.Nudge.Right.Degrees * way.Right.Radians) + (call.Nudge.Up.Degrees * way.Up.Radians)) / length : 0.0;
    }

    private int IndexOf(double at)
    {
        int found = Array.BinarySearch(_starts, at);
        return Math.Clamp(found >= 0 ? found : ~found - 1, 0, _starts.Length - 1);
    }
}
