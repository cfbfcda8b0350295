
namespace Cockpit.Planning;

/// <summary>Which pass is rehearsed.</summary>
public enum PassWish
{
    /// <summary>The best that comes.</summary>
    Best = 0,

    /// <summary>The lowest that is worth anything: a weak signal, little to move.</summary>
    Low = 1,

    /// <summary>The highest: the big turn of the pan.</summary>
    Overhead = 2,

    /// <summary>The next that is worth anything.</summary>
    Next = 3,
}

/// <summary>Chooses the pass of a rehearsal.</summary>
internal static class RehearsedPass
{
    /// <summary>The pass that is wanted.</summary>
    /// <param name="ahead">What comes.</param>
    /// <param name="wish">Which of it.</param>
    /// <param name="from">No pass that began before it, UTC.</param>
    /// <returns>Null where nothing is worth flying.</returns>
    public static PlannedPass? Of(PassesAhead ahead, PassWish wish, DateTimeOffset from)
    {
        ArgumentNullException.ThrowIfNull(ahead);
        IEnumerable<PlannedPass> whole = ahead.Worth.Where(one => one.Pass.Aos.Utc > from);
        return wish switch
        {
            PassWish.Low => whole.MinBy(one => one.Pass.Tca.Look.Elevation.Radians),
            PassWish.Overhead => whole.MaxBy(one => one.Pass.Tca.Look.Elevation.Radians),
            PassWish.Next => whole.MinBy(one => one.Pass.Aos.Utc),
            _ => whole.FirstOrDefault(),
        };
    }
}
