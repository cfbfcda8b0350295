namespace Cockpit.Core.Geo;

/// <summary>Something to be seen from a station whose place is known from a map.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Site">Where it stands, and the height of its top where that is known.</param>
/// <param name="HasHeight">Whether that height was told.</param>
public sealed record Landmark(string Name, Site Site, bool HasHeight);
