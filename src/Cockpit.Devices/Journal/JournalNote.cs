using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>Something in a journal that a person should know; the rest of it is good.</summary>
/// <param name="Line">Line number from 1.</param>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Text">One sentence.</param>
public sealed record JournalNote(long Line, JournalNoteKind Kind, string Text)
{
    /// <inheritdoc/>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"line {Line}: {TextFilter.Clean(Text)}");
}

/// <summary>What a reader can find in a journal.</summary>
public enum JournalNoteKind
{
    /// <summary>The last line was cut off, as by a crash; it was passed over.</summary>
    TornEnd = 0,

    /// <summary>A line is damaged; it was passed over.</summary>
    Damaged = 1,

    /// <summary>Events are missing before this line.</summary>
    Gap = 2,

    /// <summary>An event is there twice or in the wrong order; it was passed over.</summary>
    OutOfOrder = 3,

    /// <summary>A type of event that this program does not know; all of that type were passed over.</summary>
    UnknownType = 4,

    /// <summary>A value is out of all reason; the line was passed over, or the value replaced by the usual one.</summary>
    Wild = 5,

    /// <summary>The time of an event runs back, or does not fit those beside it; it was taken from the event before.</summary>
    TimeOff = 6,

    /// <summary>The first line is not the header; the events behind it were read.</summary>
    LostHeader = 7,
}
