using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>How the pass of a session was chosen.</summary>
/// <param name="Why">One sentence for people.</param>
/// <param name="Offers">The passes that could be flown, by time of rise.</param>
/// <param name="Taken">Which of them is flown, from 0.</param>
public sealed record PassChoice(string Why, ImmutableArray<PassOffer> Offers, int Taken)
{
    /// <summary>More are not offered: they are chosen by the keys 1 to 5.</summary>
    public const int Most = 5;
}

/// <summary>A pass that could be flown.</summary>
/// <param name="Satellite">Name of the satellite.</param>
/// <param name="Aos">When it rises over the skyline, UTC.</param>
/// <param name="Top">Its highest elevation.</param>
/// <param name="Words">What is to be expected, a few words.</param>
public sealed record PassOffer(string Satellite, DateTimeOffset Aos, Angle Top, string Words);
