namespace Cockpit.Devices.Recordings;

/// <summary>Told what happens to a source of samples.</summary>
public interface ISourceWatcher
{
    /// <summary>Samples may come now.</summary>
    /// <param name="where">From where, for people.</param>
    void Comes(string where);

    /// <summary>No more samples for now; they are waited for. Not repeated while the reason stays the same.</summary>
    /// <param name="reason">What happened, one sentence.</param>
    void Gone(string reason);

    /// <summary>How a recording that is being written does; every half second, also while it stands still.</summary>
    /// <param name="report">What was seen.</param>
    void Grows(in GrowthReport report);
}

/// <summary>How a recording that is being written does.</summary>
/// <param name="Path">Its file.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="BytesPerSecond">How fast it grew in the last seconds; 0 while it stands.</param>
/// <param name="StoodStill">How long it has not grown.</param>
/// <param name="FreeBytes">What is free on its disk; null where that cannot be asked.</param>
public readonly record struct GrowthReport(string Path, long Bytes, double BytesPerSecond, TimeSpan StoodStill, long? FreeBytes);
