using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>Folds what belongs to the desk: sound device, journal, the operator's switches.</summary>
public static class DeskMemory
{
    /// <summary>A desk where nothing has happened.</summary>
    public static DeskNow Fresh { get; } = new(null, null, null, Muted: false, VolumeDb: 0.0, Searching: false);

    /// <summary>Step of one press of a volume key, dB.</summary>
    public const double VolumeStepDb = 3.0;

    /// <summary>Softest and loudest, dB re the default; louder than +6 dB would pass the cap of the synthesis.</summary>
    public const double SoftestDb = -30.0;

    /// <inheritdoc cref="SoftestDb"/>
    public const double LoudestDb = 6.0;

    /// <summary>Folds one event into the desk.</summary>
    public static DeskNow Next(DeskNow desk, SessionEvent happened) => happened switch
    {
        SpeakerChanged e => desk with { Speaker = e.Device, SpeakerTrouble = e.Trouble },
        JournalChanged e => desk with { JournalTrouble = e.Trouble },
        OperatorPressed { Key: OperatorKey.Mute } => desk with { Muted = !desk.Muted },
        OperatorPressed { Key: OperatorKey.Search } => desk with { Searching = !desk.Searching },
        OperatorPressed { Key: OperatorKey.Peaked } => desk with { Searching = false },
        OperatorPressed { Key: OperatorKey.Louder } => desk with { VolumeDb = Math.Min(LoudestDb, desk.VolumeDb + VolumeStepDb) },
        OperatorPressed { Key: OperatorKey.Softer } => desk with { VolumeDb = Math.Max(SoftestDb, desk.VolumeDb - VolumeStepDb) },
        _ => desk,
    };
}
