namespace Cockpit.Devices.Journal;

/// <summary>What the system says about a failed file, fit for the middle of a sentence.</summary>
internal static class DiskWords
{
    /// <summary>The message without its full stop and without the path that some messages end with: our sentence names it already.</summary>
    internal static string Of(Exception failure)
    {
        string message = failure.Message.TrimEnd('.');
        int path = message.IndexOf(" : '", StringComparison.Ordinal);
        return path > 0 ? message[..path] : message;
    }
}
