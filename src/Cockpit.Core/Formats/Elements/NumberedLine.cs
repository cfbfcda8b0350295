namespace Cockpit.Core.Formats.Elements;

/// <summary>A line of an input and where it stands.</summary>
/// <param name="Text">The line without its end and without blanks before it.</param>
/// <param name="Number">Line number from 1.</param>
/// <param name="Indent">How many characters stood before the text.</param>
internal readonly record struct NumberedLine(string Text, int Number, int Indent = 0);
