using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>What the system says about a failed file, fit for the middle of a sentence.</summary>
internal static class DiskWords
{
    /// <summary>The reason without the path: our sentence names it already.</summary>
    internal static string Of(Exception failure) => FileWords.Of(failure);
}
