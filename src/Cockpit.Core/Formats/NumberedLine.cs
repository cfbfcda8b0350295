namespace Cockpit.Core.Formats;

/// <summary>A line of an input and where it stands.</summary>
/// <param name="Text">The line without its end.</param>
/// <param name="Number">Line number from 1.</param>
internal readonly record struct NumberedLine(string Text, int Number);
