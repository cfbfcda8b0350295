using Cockpit.Devices.Recordings;

namespace Cockpit.Commands;

/// <summary>What happens to a source of samples, as lines for people.</summary>
/// <param name="lines">Where they go.</param>
internal sealed class WatcherLines(TextWriter lines) : ISourceWatcher
{
    /// <inheritdoc/>
    public void Comes(string where) => lines.WriteLine($"samples come from {where}");

    /// <inheritdoc/>
    public void Gone(string reason) => lines.WriteLine(reason);

    /// <inheritdoc/>
    public void Grows(in GrowthReport report)
    {
        // The rows say that it grows.
    }
}
