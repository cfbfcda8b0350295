using System.Collections.Immutable;
using Cockpit.Devices.Journal;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Panels;
using Cockpit.Session.Review;

namespace Cockpit.Wiring;

/// <summary>Answers the keys of a replay.</summary>
/// <param name="player">What they steer.</param>
/// <param name="silence">Keeps it quiet while it jumps.</param>
/// <param name="say">Shows a sentence to the person.</param>
public sealed class ReplayDesk(Player player, JumpSilence silence, Action<string> say)
{
    private static readonly ImmutableArray<MilestoneKind?> Choices = [null, MilestoneKind.Mark, MilestoneKind.Nudge, MilestoneKind.Gap, MilestoneKind.Alarm];

    private volatile Found? _found;
    private volatile int _choice;

    /// <summary>What the screen shows of it.</summary>
    public PlayerNow Now => new(player.Rate, player.IsPaused, player.Position, player.Length, _found?.Stops, Only);

    /// <summary>Takes what can be jumped to, once it is known. Any thread.</summary>
    public void Take(ImmutableArray<Milestone> stops) => _found = new Found(stops);

    private MilestoneKind? Only => Choices[_choice];

    /// <summary>Answers a key; others than the player's are not meant.</summary>
    public void OnKey(KeyAction action)
    {
        if (action is not PlayerAction wanted)
        {
            return;
        }

        switch (wanted.Verb)
        {
            case PlayerVerb.Pause when player.IsPaused:
                player.Resume();
                break;
            case PlayerVerb.Pause:
                player.Pause();
                break;
            case PlayerVerb.Faster:
                player.Rate = Math.Min(Player.FastestRate, player.Rate * 2);
                break;
            case PlayerVerb.Slower:
                player.Rate = Math.Max(Player.SlowestRate, player.Rate / 2);
                break;
            case PlayerVerb.Jump:
                TimeSpan target = player.Position + wanted.By;
                JumpTo(target < TimeSpan.Zero ? TimeSpan.Zero : target > player.Length ? player.Length : target);
                break;
            case PlayerVerb.ToStart:
                JumpTo(TimeSpan.Zero);
                break;
            case PlayerVerb.ToEnd:
                JumpTo(player.Length);
                break;
            case PlayerVerb.Which:
                _choice = (_choice + 1) % Choices.Length;
                say($"Up and Down go to {TimelineWords.Plural(Only)}.");
                break;
            default:
                JumpToStop(wanted.Verb == PlayerVerb.Next);
                break;
        }
    }

    private void JumpToStop(bool forwards)
    {
        if (_found?.Stops is not { } stops)
        {
            say("The session is still being looked through; again in a moment.");
            return;
        }

        Milestone? stop = forwards
            ? MilestoneSearch.After(stops, player.Position, Only)
            : MilestoneSearch.Before(stops, player.Position, Only, running: !player.IsPaused);
        if (stop is null)
        {
            say($"There is no {(forwards ? "later" : "earlier")} one ({TimelineWords.Plural(Only)}).");
            return;
        }

        JumpTo(stop.At);
        say(stop.Text);
    }

    private void JumpTo(TimeSpan target) => silence.During(() => player.JumpTo(target));

    private sealed record Found(ImmutableArray<Milestone> Stops);
}
