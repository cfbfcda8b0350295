using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>Rings the terminal bell for what matters most: alarms, the call to move, the test.</summary>
/// <remarks>A bell has one sound, so it says "look at the screen", not which way.</remarks>
/// <param name="ring">Rings once; the program owns the terminal, so it is the program's.</param>
public sealed class BellSpeaker(Action ring) : ISpeaker
{
    /// <inheritdoc/>
    public string Device => "bell";

    /// <inheritdoc/>
    public TimeSpan Late => TimeSpan.Zero;

    /// <summary>Whether the bell rings for a cue.</summary>
    public static bool RingsFor(Cue cue)
    {
        ArgumentNullException.ThrowIfNull(cue);
        return cue.Kind is CueKind.Warning or CueKind.Caution or CueKind.MoveWord or CueKind.Test;
    }

    /// <inheritdoc/>
    public void Announce(Cue cue)
    {
        if (RingsFor(cue)) { ring(); }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}

/// <summary>Says nothing, because nothing was asked for.</summary>
public sealed class SilentSpeaker : ISpeaker
{
    /// <inheritdoc/>
    public string Device => "silent";

    /// <inheritdoc/>
    public TimeSpan Late => TimeSpan.Zero;

    /// <inheritdoc/>
    public void Announce(Cue cue)
    {
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
