using System.Globalization;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>Clock, disk, sound and settings before a pass. Pure.</summary>
internal static class DeskReadiness
{
    private const double Giga = 1e9;

    public static ReadinessItem Clock(DeskNow desk, SessionSettings settings) => desk.Clock switch
    {
        { IsWrong: true } clock => new(ReadinessTopic.Clock, ReadinessState.Red, Off(clock), "C corrects the predictions"),
        { } clock => new(ReadinessTopic.Clock, ReadinessState.Green, Off(clock)),
        null when settings.SetUp is { ClockIsChosen: true } => new(ReadinessTopic.Clock, ReadinessState.Green, "begun at an instant of your choice"),
        _ => new(ReadinessTopic.Clock, ReadinessState.Open, "compared with nothing", "--clock ntp://HOST"),
    };

    /// <summary>Room on the disk: for the recording that a feed reads, the rate at which it grows counts; else what is to be written.</summary>
    public static ReadinessItem Disk(DiskMeasured? disk, RecordingNow? recording, DeskNow desk) => (disk, recording) switch
    {
        _ when desk.JournalTrouble is { } trouble => new(ReadinessTopic.Disk, ReadinessState.Red, $"nothing is recorded: {trouble}", "make room"),
        (_, { DiskSoonFull: true, MinutesLeft: { } minutes }) =>
            new(ReadinessTopic.Disk, ReadinessState.Red, string.Create(CultureInfo.InvariantCulture, $"full in {minutes:0.0} minutes"), "make room"),
        ({ FreeBytes: { } free } room, _) when free < room.NeededBytes + DiskMeasured.LeastFree =>
            new(ReadinessTopic.Disk, ReadinessState.Red, Room(room, free), "make room, or the recording ends before the pass"),
        ({ FreeBytes: { } free } room, _) => new(ReadinessTopic.Disk, ReadinessState.Green, Room(room, free)),
        ({ FreeBytes: null } room, _) => new(ReadinessTopic.Disk, ReadinessState.Open, $"what is free in {room.Where} cannot be asked"),
        _ => new(ReadinessTopic.Disk, ReadinessState.Open, "not looked at yet"),
    };

    public static ReadinessItem Sound(SoundTest test, DeskNow desk) => (test, desk) switch
    {
        (_, { SpeakerTrouble: { } trouble }) => new(ReadinessTopic.Sound, ReadinessState.Red, $"{desk.Speaker}: {trouble}", "plug in, or choose with --sound"),
        (_, { Speaker: "silent" }) => new(ReadinessTopic.Sound, ReadinessState.Red, "off: nothing will be heard", "--sound auto"),
        (SoundTest.Played, _) => new(ReadinessTopic.Sound, ReadinessState.Open, "left, then right, then both?", "Space: so it came   X: it did not"),
        (SoundTest.Heard, { Muted: true }) => new(ReadinessTopic.Sound, ReadinessState.Red, "muted", "M"),
        (SoundTest.Heard, _) => new(ReadinessTopic.Sound, ReadinessState.Green, $"heard left and right on {desk.Speaker ?? "the sound device"}"),
        (SoundTest.NotHeard, _) => new(ReadinessTopic.Sound, ReadinessState.Red, "not heard as it has to be", "plug, sides, volume (+); then T again"),
        _ => new(ReadinessTopic.Sound, ReadinessState.Open, "not heard yet", "T plays left, right, both"),
    };

    public static ReadinessItem Settings(SessionSettings settings) => settings.SetUp switch
    {
        { Mistakes: > 0 } told => new(
            ReadinessTopic.Settings, ReadinessState.Red, string.Create(CultureInfo.InvariantCulture, $"{told.Mistakes} mistakes passed over"), "cockpit settings check"),
        { Missing.IsDefaultOrEmpty: false } told => new(
            ReadinessTopic.Settings, ReadinessState.Open, $"usual value taken for {string.Join(", ", told.Missing)}", "cockpit settings"),
        _ => new(
            ReadinessTopic.Settings,
            ReadinessState.Green,
            string.Create(CultureInfo.InvariantCulture, $"dish {settings.DishDiameterMetres:0.0#} m, {settings.Downlink.Hertz / 1e6:0.0###} MHz, {settings.Service}")),
    };

    private static string Off(ClockNow clock) => string.Create(
        CultureInfo.InvariantCulture,
        $"{clock.Behind.Duration().TotalSeconds:0.00} s {(clock.Behind > TimeSpan.Zero ? "behind" : "ahead of")} {clock.Against} (±{clock.Doubt.TotalSeconds:0.00})");

    private static string Room(DiskMeasured room, long free) => room.NeededBytes >= Giga / 20
        ? string.Create(CultureInfo.InvariantCulture, $"{free / Giga:0.0} GB free, {room.NeededBytes / Giga:0.0} GB needed")
        : string.Create(CultureInfo.InvariantCulture, $"{free / Giga:0.0} GB free");
}
