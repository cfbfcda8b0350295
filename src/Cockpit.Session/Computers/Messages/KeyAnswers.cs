using System.Globalization;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Messages;

/// <summary>What the one key stands for at a moment, and what became of a key.</summary>
public static class KeyAnswers
{
    /// <summary>Puts in place of the one key what the moment asks for: heard, seen, best, or moved.</summary>
    /// <param name="envelope">Any event.</param>
    /// <param name="before">The moment before it; null at the start.</param>
    /// <param name="warned">A warning sounds that was not acknowledged.</param>
    public static Envelope Resolve(Envelope envelope, Snapshot? before, bool warned)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        bool soundAsked = before?.Readiness is { SoundAsked: true };
        if (envelope.Event is OperatorPressed { Key: OperatorKey.NotMoved } && soundAsked)
        {
            return envelope with { Event = new OperatorPressed(OperatorKey.NotHeard) };
        }

        if (envelope.Event is not OperatorPressed { Key: OperatorKey.OneKey }) { return envelope; }

        OperatorKey key = soundAsked ? OperatorKey.Heard
            : warned ? OperatorKey.Acknowledge
            : before?.Aim is { PeakAsked: true, Word: not AimWord.Move } ? OperatorKey.Peaked
            : OperatorKey.Moved;
        return envelope with { Event = new OperatorPressed(key) };
    }

    /// <summary>What became of the key of this event; null when it is none.</summary>
    /// <param name="scene">The event and its moment.</param>
    /// <param name="draft">The moment after it.</param>
    /// <param name="notice">What the steps have said to the operator.</param>
    /// <param name="warned">A warning or caution sounded that was not acknowledged.</param>
    public static KeyAnswer? Of(Scene scene, Snapshot draft, Message? notice, bool warned)
    {
        ArgumentNullException.ThrowIfNull(scene);
        ArgumentNullException.ThrowIfNull(draft);
        if (scene.Key is not { } key) { return null; }

        if (key is OperatorKey.Moved or OperatorKey.Peaked or OperatorKey.NotMoved && notice is { } said && said.SinceUtc == scene.Utc)
        {
            return new KeyAnswer(key, !said.IsRefusal, said.Text);
        }

        return key switch
        {
            OperatorKey.Moved => new(key, true, "taken: moved"),
            OperatorKey.Peaked => new(key, true, "taken: best, the dish is on the satellite"),
            OperatorKey.NotMoved => new(key, true, "taken: the last nudge was not made"),
            OperatorKey.Mute => new(key, true, draft.Desk.Muted ? "guidance sounds muted" : "guidance sounds on"),
            OperatorKey.Acknowledge => warned ? new(key, true, "alarm acknowledged") : new(key, false, "there is no alarm to acknowledge"),
            OperatorKey.Search => new(key, true, draft.Aim.PeakAsked ? "search for the peak: the tone sounds for 30 s" : "search for the peak ended"),
            OperatorKey.Louder or OperatorKey.Softer => new(key, true, string.Create(CultureInfo.InvariantCulture, $"volume {draft.Desk.VolumeDb:+0;-0;0} dB")),
            OperatorKey.CorrectClock => draft.Desk.Clock is not { } clock
                ? new(key, false, "the clock was compared with nothing: --clock names a time server, --place a receiver")
                : clock.CanBeCorrected
                    ? new(key, true, "predictions corrected by what the clock was found to be wrong")
                    : new(key, false, string.Create(CultureInfo.InvariantCulture, $"the clock agrees with {clock.Against} within {clock.Doubt.TotalSeconds:0.0} s: nothing to correct")),
            OperatorKey.Again => draft.Aim.Word is AimWord.Point or AimWord.Done ? new(key, false, "no nudge is called that could be said again") : new(key, true, "said again"),
            OperatorKey.OnDirection => draft.Readiness?.Directions is { Chosen: var chosen }
                ? new(key, true, $"taken: the dish points at {chosen.What}")
                : new(key, false, NoDirection(draft)),
            OperatorKey.AnotherDirection => draft.Readiness?.Directions is { Chosen: var other }
                ? new(key, true, $"point the dish at {other.What} ({other.How}), then D")
                : new(key, false, NoDirection(draft)),
            OperatorKey.Heard => new(key, true, "taken: the sound comes left and right"),
            OperatorKey.NotHeard => new(key, true, "taken: the sound is not as it has to be; look at plug, sides and volume, then T again"),
            _ => new(key, true, draft.Readiness is null ? "test sound: left, right, both" : "test sound: left, right, both. Space: so it came. X: it did not"),
        };
    }

    private static string NoDirection(Snapshot draft) => draft switch
    {
        { Readiness: null } => "that is for before the pass; now P says that the dish is on the satellite",
        { Sensor: null } => "there is no sensor on the dish that could learn from it",
        { Sensor.IsFresh: false } => "the sensor is silent: nothing to learn from",
        _ => "neither sun, moon, pole star nor a landmark of the settings can be pointed at now",
    };
}
