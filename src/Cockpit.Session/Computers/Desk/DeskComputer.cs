using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>What belongs to the desk: sound device, journal, clock, place, the operator's switches. Pure.</summary>
public static class DeskComputer
{
    /// <summary>Step of one press of a volume key, dB.</summary>
    public const double VolumeStepDb = 3.0;

    /// <summary>Softest and loudest, dB re the default; louder than +6 dB would pass the cap of the synthesis.</summary>
    public const double SoftestDb = -30.0;

    /// <inheritdoc cref="SoftestDb"/>
    public const double LoudestDb = 6.0;

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static DeskMemory Next(DeskMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        DeskNow desk = memory.Now;
        return scene.Envelope.Event switch
        {
            SessionOpened e => DeskMemory.Empty with { Now = DeskMemory.Empty.Now with { VolumeDb = Math.Clamp(e.Settings.VolumeDb, SoftestDb, LoudestDb), Head = HeadRules.Opened(scene) } },
            HeadTurned turn => memory with { Now = desk with { Head = HeadRules.Turned(desk.Head, turn) } },
            SpeakerChanged e => memory with { Now = desk with { Speaker = e.Device, SpeakerTrouble = e.Trouble } },
            JournalChanged e => memory with { Now = desk with { JournalTrouble = e.Trouble } },
            ClockCompared { Behind: { } behind } e => ClockRules.Compared(memory, e.Against, behind, e.Doubt),
            ClockCorrected e => ClockRules.Corrected(memory, e),
            PlaceFixed e => PlaceRules.Fixed(memory, e, scene.Settings.Station),
            OperatorPressed { Key: OperatorKey.Mute } => memory with { Now = desk with { Muted = !desk.Muted } },
            OperatorPressed { Key: OperatorKey.Louder } => memory with { Now = desk with { VolumeDb = Math.Min(LoudestDb, desk.VolumeDb + VolumeStepDb) } },
            OperatorPressed { Key: OperatorKey.Softer } => memory with { Now = desk with { VolumeDb = Math.Max(SoftestDb, desk.VolumeDb - VolumeStepDb) } },
            _ => memory,
        };
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    public static DeskNow Derive(DeskMemory memory)
    {
        ArgumentNullException.ThrowIfNull(memory);
        return memory.Now;
    }
}
