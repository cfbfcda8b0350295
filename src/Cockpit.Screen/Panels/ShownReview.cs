using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Screen.Panels;

/// <summary>A review as the last page shows it.</summary>
/// <param name="Lines">Most important first: a heading of up to twelve letters, blanks, the words.</param>
/// <param name="States">What became of each line of the pass that was watched, in order.</param>
public sealed record ShownReview(ImmutableArray<string> Lines, ImmutableArray<LineState> States);
