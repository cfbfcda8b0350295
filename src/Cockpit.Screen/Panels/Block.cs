using System.Collections.Immutable;
using System.Text;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>A piece of text with one meaning.</summary>
/// <param name="Text">The text; it falls into cells of one or two columns as <see cref="CellColumns"/> reads it.</param>
/// <param name="Role">What it means.</param>
public readonly record struct Run(string Text, Role Role);

/// <summary>A rectangle of text runs: what a panel makes and a view shows.</summary>
/// <param name="Width">Columns; each line fills them all.</param>
/// <param name="Lines">The lines, top first.</param>
public sealed record Block(int Width, ImmutableArray<ImmutableArray<Run>> Lines)
{
    /// <summary>Rows.</summary>
    public int Height => Lines.Length;

    /// <summary>The text alone, a line a row, without blanks at the ends.</summary>
    public string Text => string.Join('\n', Lines.Select(line => string.Concat(line.Select(run => run.Text)).TrimEnd()));

    /// <summary>Whether two blocks show the same.</summary>
    public bool Equals(Block? other)
    {
        if (ReferenceEquals(this, other))
        {
            return true;
        }

        if (other is null || other.Width != Width || other.Height != Height)
        {
            return false;
        }

        for (int row = 0; row < Height; row++)
        {
            if (!Lines[row].AsSpan().SequenceEqual(other.Lines[row].AsSpan()))
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Width, Height, Height > 0 && Lines[0].Length > 0 ? Lines[0][0] : default);

    /// <summary>The meaning of each cell, one letter a cell, for tests.</summary>
    public string RoleMap(Func<Role, char> letter)
    {
        StringBuilder map = new();
        foreach (ImmutableArray<Run> line in Lines)
        {
            foreach (Run run in line)
            {
                map.Append(letter(run.Role), CellColumns.Width(run.Text));
            }

            map.Append('\n');
        }

        return map.ToString();
    }
}
