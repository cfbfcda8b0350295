using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>The screen for where there is no terminal: one line a second of session time, for pipes, logs and screen readers.</summary>
/// <param name="output">Where the lines go.</param>
public sealed class PlainLines(TextWriter output)
{
    /// <summary>Clock, disk and feeds need a moment before anything can be said of them.</summary>
    private static readonly TimeSpan Settled = TimeSpan.FromSeconds(3);

    private readonly Dictionary<ReadinessTopic, ReadinessState> _told = [];
    private long _lastSecond = long.MinValue;
    private string? _said;
    private Message? _unsaid;

    /// <summary>Prints a line when a new second has begun; a warning that came and went between two lines has one of its own.</summary>
    public void Show(Snapshot snapshot)
    {
        if (snapshot.Message is { Weight: MessageWeight.Warning } warning && !string.Equals(warning.Text, _said, StringComparison.Ordinal))
        {
            _unsaid = warning;
        }

        long second = snapshot.Utc.ToUnixTimeSeconds();
        if (second == _lastSecond)
        {
            return;
        }

        _lastSecond = second;
        if (_unsaid is { } missed && !string.Equals(missed.Text, snapshot.Message?.Text, StringComparison.Ordinal))
        {
            output.WriteLine(TextFilter.Clean(string.Create(CultureInfo.InvariantCulture, $"{missed.SinceUtc:HH:mm:ss}Z {missed.Text}")));
        }

        _unsaid = null;
        _said = snapshot.Message?.Text;
        if (snapshot.Readiness is { } readiness && snapshot.Elapsed >= Settled)
        {
            Tell(readiness);
        }

        output.WriteLine(Core.Formats.TextFilter.Clean(LineOf(snapshot)));
        output.Flush();
    }

    /// <summary>What has to be right before the pass, each thing again when it changes.</summary>
    private void Tell(ReadinessNow readiness)
    {
        foreach (ReadinessItem item in readiness.Items)
        {
            if (_told.TryGetValue(item.Topic, out ReadinessState before) && before == item.State)
            {
                continue;
            }

            _told[item.Topic] = item.State;
            string todo = item.ToDo is { } words ? $" -> {words}" : "";
            output.WriteLine(TextFilter.Clean($"check {item.Topic.ToString().ToLowerInvariant(),-9} {item.State.ToString().ToUpperInvariant(),-5} {item.Found}{todo}"));
        }
    }

    /// <summary>The line of a moment.</summary>
    public static string LineOf(Snapshot snapshot)
    {
        string sky = snapshot.Sky is { } s
            ? string.Create(CultureInfo.InvariantCulture, $"{s.Phase.ToString().ToLowerInvariant()} {s.ToNext:mm\\:ss} az {s.Now?.Azimuth.Degrees,5:0.0} el {s.Now?.Elevation.Degrees,5:0.0}")
            : "no pass";
        string level = snapshot.Link.MeasuredDb is { } db
            ? string.Create(CultureInfo.InvariantCulture, $"{snapshot.Link.Quantity?.Symbol()} {db,6:0.0} dB")
            : "no signal";
        string feeds = string.Join(' ', snapshot.Feeds.Select(f => $"{f.Name}:{f.Health.ToString().ToLowerInvariant()}"));
        return TextFilter.Clean(string.Create(
            CultureInfo.InvariantCulture,
            $"{snapshot.Utc:HH:mm:ss}Z {sky} | {snapshot.Aim.Word.ToString().ToUpperInvariant()}{NudgeOf(snapshot.Aim)} | {level} | {feeds} | {snapshot.Message?.Text}"));
    }

    private static string NudgeOf(AimNow aim)
    {
        if (aim is not { Nudge: { } nudge, Word: AimWord.Move or AimWord.Next or AimWord.Hold or AimWord.Search })
        {
            return "";
        }

        HandMove move = nudge.By(aim.Mount);
        string then = aim.Word == AimWord.Move ? "" : " then";
        return string.Create(CultureInfo.InvariantCulture, $"{then} {Part("left", "right", move.Side)} {Part("down", "up", move.Lift)} {(aim.Mount == Mount.PanTilt ? "(pan tilt)" : "(from behind)")}");
    }

    private static string Part(string negative, string positive, Angle amount) =>
        string.Create(CultureInfo.InvariantCulture, $"{(amount < Angle.Zero ? negative : positive)} {Math.Abs(amount.Degrees):0}");
}
