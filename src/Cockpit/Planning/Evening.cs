using System.Collections.Immutable;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>The few passes of an evening that are worth it, and how one dish is shared among those that overlap.</summary>
/// <param name="Question">Where and when.</param>
/// <param name="Field">The magnetic field at the station.</param>
/// <param name="Passes">The passes, the best first.</param>
/// <param name="Shares">Advice for each group of them that overlaps, in order of time.</param>
/// <param name="Left">How many more are worth it.</param>
/// <param name="Weak">How many are too weak for the dish.</param>
internal sealed record Evening(PassQuestion Question, MagneticField Field, ImmutableArray<EveningPass> Passes, ImmutableArray<SharedDish> Shares, int Left, int Weak)
{
    /// <summary>Works it out.</summary>
    /// <param name="ahead">What comes.</param>
    /// <param name="question">Where and when; a pass that is half over at the start is left out.</param>
    /// <param name="settings">Station and dish.</param>
    /// <param name="most">Most passes that are taken.</param>
    /// <param name="turn">What the dish needs from one satellite to another.</param>
    public static Evening Of(PassesAhead ahead, PassQuestion question, VerdictSettings settings, int most, TimeSpan turn)
    {
        MagneticField field = WorldMagneticModel.At(question.Station, question.From);
        ImmutableArray<PlannedPass> coming = [.. ahead.Worth.Where(one => one.Pass.Tca.Utc >= question.From)];
        ImmutableArray<EveningPass> passes = [.. coming.Take(most).Select((one, k) => EveningPass.Of(k + 1, one, question, field))];
        return new Evening(question, field, passes, SharedDish.Among(passes, settings, turn, field), coming.Length - passes.Length, ahead.Weak);
    }

    /// <summary>The advice that a pass has a part in; null where it has the dish for itself.</summary>
    public SharedDish? ShareOf(EveningPass pass) => Shares.FirstOrDefault(share => share.Passes.Contains(pass));
}
