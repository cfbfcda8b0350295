using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>One line: the time, what comes next and when, the phase, the satellite.</summary>
internal static class ClockPanel
{
    public static Block Of(Snapshot now, PlayerNow? player, bool replay, int width)
    {
        Canvas canvas = new(width, 1);
        string kind = Kind(now, player, replay);
        int start = 1;
        if (kind.Length > 0)
        {
            canvas.Text(start, 0, $" {kind} ", Role.Point);
            start += kind.Length + 3;
        }

        canvas.Text(start, 0, Figures.Clock(now.Utc), Role.Strong);
        canvas.Text(start + 9, 0, "UTC", Role.Dim);
        canvas.Text(start + 15, 0, Next(now.Sky), Role.Strong);
        canvas.Text(start + 30, 0, Phase(now.Sky), Role.Plain);

        string satellite = now.Settings?.SatelliteName ?? "";
        string highest = now.Sky is { } sky ? $"  max {Figures.Of(sky.Pass.Tca.Look.Elevation.Degrees, 2, 0)}°" : "";
        int end = width - 1;
        if (end - highest.Length < start + 40)
        {
            return canvas.ToBlock();
        }

        canvas.TextBefore(end, 0, highest, Role.Dim);
        end -= highest.Length;
        int room = Math.Min(end - start - 42, CellColumns.Width(satellite));
        if (room > 0)
        {
            canvas.TextBefore(end, 0, Figures.Fit(satellite, room), Role.Plain);
        }

        return canvas.ToBlock();
    }

    private static string Next(SkyNow? sky) => sky?.Phase switch
    {
        PassPhase.Waiting or PassPhase.Ready => $"AOS in {Figures.Countdown(sky.ToNext)}",
        PassPhase.Climbing => $"TCA in {Figures.Countdown(sky.ToNext)}",
        PassPhase.Sinking => $"LOS in {Figures.Countdown(sky.ToNext)}",
        PassPhase.Over => "LOS is past",
        _ => "AOS in --:--",
    };

    private static string Phase(SkyNow? sky) => sky?.Phase switch
    {
        PassPhase.Waiting => "waiting",
        PassPhase.Ready => "get ready",
        PassPhase.Climbing => "climbing",
        PassPhase.Sinking => "sinking",
        PassPhase.Over => "over",
        _ => "no pass",
    };

    private static string Kind(Snapshot now, PlayerNow? player, bool replay)
    {
        if (replay || player is not null)
        {
            return player is { Paused: true } ? "REPLAY paused" : $"REPLAY {Rate(player?.Rate ?? 1.0)}";
        }

        string kind = now.Settings is { Kind: not SessionKind.Live and var other } ? other.ToString().ToUpperInvariant() : "";
        return now.Settings is { Speed: not 1.0 and var speed } ? $"{kind} {Rate(speed)}{LeftOut(now)}".Trim() : kind;
    }

    /// <summary>A session that runs faster leaves words out whole; a person who practises has to know that it does.</summary>
    private static string LeftOut(Snapshot now) => now.Cues.WordsLeftOut > 0
        ? string.Create(CultureInfo.InvariantCulture, $", {now.Cues.WordsLeftOut} words left out")
        : "";

    private static string Rate(double rate) => string.Create(CultureInfo.InvariantCulture, $"x{rate:0.##}");
}
