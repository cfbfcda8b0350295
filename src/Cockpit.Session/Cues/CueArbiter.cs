using System.Collections.Immutable;
using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>Who has the floor between two steps.</summary>
/// <param name="Priority">Priority of the last cue; 0 before the first.</param>
/// <param name="Until">Session time at which it ends.</param>
/// <param name="QuietUntil">Until then the operator's hands move: nothing but warnings.</param>
internal readonly record struct ArbiterMemory(int Priority, TimeSpan Until, TimeSpan QuietUntil);

/// <summary>Gives the floor to one cue at a time; a higher priority (smaller number) may cut in, a lower one is refused.</summary>
internal sealed class CueArbiter(ArbiterMemory memory, CueMoment moment)
{
    /// <summary>A higher priority keeps the lower ones quiet for its length and this much more, s.</summary>
    private const double AfterSeconds = 0.3;

    /// <summary>Two cues of one priority are kept apart by this, so that the one is not heard as a part of the other, s.</summary>
    private const double ApartSeconds = 0.2;

    private readonly ImmutableArray<Cue>.Builder _started = ImmutableArray.CreateBuilder<Cue>();
    private ArbiterMemory _memory = memory;

    /// <summary>What to keep until the next step.</summary>
    public ArbiterMemory Memory => _memory;

    /// <summary>The cues that got the floor in this step.</summary>
    public ImmutableArray<Cue> Started => _started.Count == 0 ? [] : _started.ToImmutable();

    /// <summary>Starts a cue when nothing stands against it.</summary>
    /// <param name="cue">What wants to sound.</param>
    /// <param name="asked">The operator asked for it with a key: neither mute nor the quiet after a nudge holds it back.</param>
    /// <returns>Whether it sounds.</returns>
    public bool TryStart(Cue cue, bool asked = false)
    {
        if (!asked && moment.Snapshot.Desk.Muted && cue.Priority >= 3) { return false; }

        if (!asked && cue.Priority > 1 && moment.Elapsed < _memory.QuietUntil) { return false; }

        TimeSpan held = _memory.Until + moment.Real(cue.Priority > _memory.Priority ? AfterSeconds : ApartSeconds);
        if (_memory.Priority > 0 && cue.Priority >= _memory.Priority && moment.Elapsed < held) { return false; }

        _started.Add(cue);
        _memory = _memory with { Priority = cue.Priority, Until = moment.Elapsed + moment.Real(LengthSeconds(cue, moment.Snapshot.Settings is { SpokenWords: true })) };
        return true;
    }

    /// <summary>Keeps everything but warnings quiet for a while.</summary>
    public void Quiet(double seconds) => _memory = _memory with { QuietUntil = moment.Elapsed + moment.Real(seconds) };

    /// <summary>Whether anything but a warning has to be quiet now.</summary>
    public bool IsQuiet => moment.Elapsed < _memory.QuietUntil;

    private static double LengthSeconds(Cue cue, bool spoken)
    {
        double words = spoken ? SpokenCue.Seconds(cue) : 0.0;
        if (words > 0.0 && SpokenCue.ReplacesNotes(cue.Kind)) { return words; }

        double end = 0.0;
        foreach (Tone tone in cue.Tones) { end = Math.Max(end, tone.StartMs + tone.LengthMs); }

        return words + (end / 1000.0);
    }
}
