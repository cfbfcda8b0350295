using System.Collections.Immutable;

namespace Cockpit.Core.Verdicts;

/// <summary>A pass that wants the one dish: what it would receive in each second.</summary>
/// <param name="StartUtc">The first second, UTC.</param>
/// <param name="MarginsDb">Margin over the need of the service in each second from then on, dB; only what is above zero is received.</param>
public sealed record DishClaim(DateTimeOffset StartUtc, ImmutableArray<double> MarginsDb)
{
    /// <summary>End of the last second, UTC.</summary>
    public DateTimeOffset EndUtc => StartUtc + TimeSpan.FromSeconds(MarginsDb.Length);

    /// <summary>What a dish receives that is there all the time.</summary>
    public TimeSpan Receivable => TimeSpan.FromSeconds(MarginsDb.Count(margin => margin > 0.0));

    /// <summary>The claim of a pass.</summary>
    /// <param name="candidate">The pass.</param>
    /// <param name="settings">Dish and service.</param>
    public static DishClaim Of(PassCandidate candidate, VerdictSettings settings)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        ArgumentNullException.ThrowIfNull(settings);
        const int most = 7200; // a satellite that stands still claims the first two hours only
        DateTimeOffset from = candidate.Pass.Aos.Utc;
        var track = new SmoothTrack(candidate.Track, from, candidate.Pass.Los.Utc);
        int seconds = Math.Min(most, (int)Math.Ceiling(candidate.Pass.Duration.TotalSeconds));
        var margins = ImmutableArray.CreateBuilder<double>(seconds);
        for (int k = 0; k < seconds; k++)
        {
            margins.Add(track.TryDirection(from.AddSeconds(k), out Aim.Direction direction, out double rangeKm)
                ? settings.Link.ExpectedMargin(direction.Elevation, rangeKm).Value
                : double.NegativeInfinity);
        }

        return new DishClaim(from, margins.MoveToImmutable());
    }
}

/// <summary>A time in which the dish follows one of several passes.</summary>
/// <param name="Claim">Which, from 0.</param>
/// <param name="FromUtc">From its first second that is received, UTC.</param>
/// <param name="ToUtc">To the end of its last second that is received, UTC.</param>
/// <param name="Received">What is received of it in that time.</param>
public readonly record struct DishShift(int Claim, DateTimeOffset FromUtc, DateTimeOffset ToUtc, TimeSpan Received);

/// <summary>How one dish is shared among passes.</summary>
/// <param name="Shifts">Who has it when, in order of time.</param>
/// <param name="Received">What is received of all together.</param>
/// <param name="Lost">What each of the passes loses of what it alone would bring, in the order of the claims.</param>
public sealed record DishShares(ImmutableArray<DishShift> Shifts, TimeSpan Received, ImmutableArray<TimeSpan> Lost);
