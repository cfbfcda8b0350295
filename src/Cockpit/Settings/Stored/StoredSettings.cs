using System.Collections.Immutable;
using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>The settings of a file: what was good in it, and what was not.</summary>
/// <param name="File">Its path.</param>
/// <param name="Root">What was good.</param>
/// <param name="Mistakes">What was not, in the order of the file.</param>
/// <param name="Caution">A sentence about the file as a whole; null where there is nothing to say.</param>
public sealed record StoredSettings(string File, StoredTable Root, ImmutableArray<ParseError> Mistakes, string? Caution)
{
    /// <summary>The place in use: the one that is named, else the first; null where there is none.</summary>
    public StoredTable? Place => InUse("place", "places");

    /// <summary>The dish in use: the one that is named, else the first; null where there is none.</summary>
    public StoredTable? Dish => InUse("dish", "dishes");

    /// <summary>The satellites that are followed, in the order of the file.</summary>
    public IEnumerable<StoredTable> Favourites => Root.All("favourites");

    /// <summary>A path of the file: one that is not rooted belongs to the file's folder, ~ is the home of the user.</summary>
    /// <param name="path">As it is written.</param>
    public string Resolve(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (path is "~" || path.StartsWith("~/", StringComparison.Ordinal))
        {
            return Path.Join(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), path[1..]);
        }

        return Path.GetFullPath(path, Path.GetDirectoryName(Path.GetFullPath(File)) ?? Directory.GetCurrentDirectory());
    }

    private StoredTable? InUse(string key, string tables)
    {
        StoredTable[] all = [.. Root.All(tables)];
        return all.FirstOrDefault(table => string.Equals(table.Text("name"), Root.Text(key), StringComparison.OrdinalIgnoreCase)) ?? all.FirstOrDefault();
    }
}
