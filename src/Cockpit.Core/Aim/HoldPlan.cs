using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>The fewest fixed directions of a dish that keep a satellite within a pointing loss for a whole pass.</summary>
/// <remarks>
/// Each hold runs as long as one cap of the allowed radius covers its part of the track, then the next begins. Any part of
/// a coverable span is coverable, so by induction the k-th cut of no other plan is later: the count is the least possible
/// for the samples given.
/// </remarks>
public static class HoldPlan
{
    /// <summary>The distance of samples that the plan is made for: at 0.6°/s, the fastest a low satellite goes, 0.3°.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromSeconds(0.5);

    /// <summary>Pointing loss that a hold may cost at its edges where nothing else is said.</summary>
    public static Decibels UsualLoss { get; } = new(0.5);

    /// <summary>Samples a track evenly; moments without an answer are left out.</summary>
    /// <param name="track">The track.</param>
    /// <param name="from">First moment, UTC.</param>
    /// <param name="to">Last moment, UTC; taken only when a whole number of steps leads there.</param>
    /// <param name="step">Distance of the samples, positive.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    public static ImmutableArray<PassMoment> Sample(ITrack track, DateTimeOffset from, DateTimeOffset to, TimeSpan step)
    {
        ArgumentNullException.ThrowIfNull(track);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(step, TimeSpan.Zero);
        ImmutableArray<PassMoment>.Builder samples = ImmutableArray.CreateBuilder<PassMoment>();
        for (DateTimeOffset at = from; at <= to; at += step)
        {
            if (track.At(at) is { } look)
            {
                samples.Add(new PassMoment(at, look));
            }
        }

        return samples.ToImmutable();
    }

    /// <summary>Makes the plan of a pass.</summary>
    /// <param name="track">The pass, in order of time; every half second is fine enough.</param>
    /// <param name="beam">The dish.</param>
    /// <param name="allowedLoss">Pointing loss at the edge of a hold.</param>
    /// <param name="overlap">How long before the end of one hold the next is good already: time for the hand to move in.</param>
    /// <returns>Holds numbered from 1; each ends on the sample where the next begins (without overlap). Empty for no samples.</returns>
    public static ImmutableArray<Hold> Make(ReadOnlySpan<PassMoment> track, Beam beam, Decibels allowedLoss, TimeSpan overlap = default)
    {
        Direction[] points = Directions(track);
        double cosRadius = beam.RadiusFor(allowedLoss).Cos();
        ImmutableArray<Hold>.Builder holds = ImmutableArray.CreateBuilder<Hold>();
        int start = 0;
        while (start < points.Length)
        {
            (int end, Cap cap) = Extend(points, start, cosRadius);
            holds.Add(HoldOf(holds.Count + 1, track[start], track[end], cap, beam));
            if (end == points.Length - 1)
            {
                break;
            }

            int next = end;
            while (next > start + 1 && track[end].Utc - track[next - 1].Utc <= overlap)
            {
                next--;
            }

            // Samples farther apart than the cap is wide: go on with the next one.
            start = next > start ? next : start + 1;
        }

        return holds.ToImmutable();
    }

    /// <summary>The longest hold that begins with the first sample.</summary>
    /// <param name="track">At least one moment, in order of time.</param>
    /// <param name="beam">The dish.</param>
    /// <param name="allowedLoss">Pointing loss at the edge of the hold.</param>
    /// <param name="number">Number to give it.</param>
    public static Hold Longest(ReadOnlySpan<PassMoment> track, Beam beam, Decibels allowedLoss, int number)
    {
        ArgumentOutOfRangeException.ThrowIfZero(track.Length, nameof(track));
        Direction[] points = Directions(track);
        (int end, Cap cap) = Extend(points, 0, beam.RadiusFor(allowedLoss).Cos());
        return HoldOf(number, track[0], track[end], cap, beam);
    }

    /// <summary>How many holds a plan has; the same cuts as <see cref="Make"/> without overlap, without making the holds.</summary>
    /// <param name="points">The pass, in order of time.</param>
    /// <param name="beam">The dish.</param>
    /// <param name="allowedLoss">Pointing loss at the edge of a hold.</param>
    internal static int Count(ReadOnlySpan<Direction> points, Beam beam, Decibels allowedLoss)
    {
        double cosRadius = beam.RadiusFor(allowedLoss).Cos();
        int holds = 0;
        int start = 0;
        while (start < points.Length)
        {
            int end = Extend(points, start, cosRadius).End;
            holds++;
            start = end == points.Length - 1 ? points.Length : Math.Max(end, start + 1);
        }

        return holds;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private static Direction[] Directions(ReadOnlySpan<PassMoment> track)
    {
        var points = new Direction[track.Length];
        for (int i = 0; i < track.Length; i++)
        {
            points[i] = Direction.Of(track[i].Look);
        }

        return points;
    }

    /// <summary>The last sample that one cap still covers: doubling steps first, then halving.</summary>
    private static (int End, Cap Cap) Extend(ReadOnlySpan<Direction> points, int start, double cosRadius)
    {
        int good = start;
        Cap cap = new(points[start], 1.0);
        int step = 1;
        int bad = points.Length;
        while (good + step < bad)
        {
            if (SmallestCap.Around(points[start..(good + step + 1)], cosRadius) is { } larger)
            {
                good += step;
                cap = larger;
                step *= 2;
            }
            else
            {
                bad = good + step;
                step = 1;
                break;
            }

            step = Math.Min(step, Math.Max(1, points.Length - 1 - good));
        }

        while (bad - good > 1)
        {
            int middle = good + ((bad - good) / 2);
            if (SmallestCap.Around(points[start..(middle + 1)], cosRadius) is { } larger)
            {
                good = middle;
                cap = larger;
            }
            else
            {
                bad = middle;
            }
        }

        return (good, cap);
    }

    private static Hold HoldOf(int number, PassMoment from, PassMoment to, Cap cap, Beam beam)
    {
        Angle radius = Angle.FromRadians(Math.Acos(Math.Clamp(cap.CosRadius, -1.0, 1.0)));
        return new Hold(number, from.Utc, to.Utc, cap.Axis.Azimuth, cap.Axis.Elevation, beam.LossAt(radius));
    }
}
