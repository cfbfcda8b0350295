using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>One line: how long until the next nudge, as a number and as a bar, and where it leads.</summary>
internal static class HoldPanel
{
    private static readonly TimeSpan LastMinute = TimeSpan.FromSeconds(60);

    public static Block Of(Snapshot now, int width)
    {
        Canvas canvas = new(width, 1);
        AimNow aim = now.Aim;
        DateTimeOffset? at = aim.NudgeAt ?? (aim.Word == AimWord.Point ? now.Sky?.Pass.Aos.Utc : null);
        TimeSpan? left = at - now.Utc;
        string countdown = aim.Word == AimWord.Move ? " now " : left is { } span ? Figures.Countdown(span) : "--:--";
        canvas.Text(1, 0, aim.Word == AimWord.Point ? "start in" : "nudge in", Role.Dim);
        canvas.Text(10, 0, countdown, left is null ? Role.Stale : Role.Strong);

        string place = Place(now);
        canvas.TextBefore(width - 1, 0, place, aim.Target is null ? Role.Stale : Role.Plain);
        int start = 17;
        int length = width - 1 - place.Length - 2 - start;
        if (length > 4)
        {
            Bar(canvas, start, length, Gone(now, at));
        }

        return canvas.ToBlock();
    }

    /// <summary>How much of the hold is gone, 0..1; before the first hold, of the last minute.</summary>
    private static double? Gone(Snapshot now, DateTimeOffset? nudgeAt)
    {
        if (nudgeAt is not { } at)
        {
            return null;
        }

        DateTimeOffset from = now.Aim.Current?.FromUtc ?? at - LastMinute;
        double whole = (at - from).TotalSeconds;
        return whole > 0.0 ? Math.Clamp((now.Utc - from).TotalSeconds / whole, 0.0, 1.0) : 1.0;
    }

    private static void Bar(Canvas canvas, int start, int length, double? gone)
    {
        int filled = gone is { } part ? (int)Math.Round(part * length) : 0;
        canvas.Text(start, 0, new string('━', filled), Role.Measured);
        canvas.Text(start + filled, 0, new string(gone is null ? '·' : '─', length - filled), Role.Grid);
        canvas.Glyph(start + length, 0, '┤', gone is null ? Role.Grid : Role.Strong);
    }

    private static string Place(Snapshot now)
    {
        if (now.Aim.Target is not { } hold)
        {
            return "no further hold        ";
        }

        int count = now.Sky?.Holds.Length ?? 0;
        string magnetic = Magnetic(now, hold);
        return string.Create(CultureInfo.InvariantCulture, $"hold {hold.Number,2} of {count,2}  az {Figures.Azimuth(hold.Azimuth.WrappedToTurn().Degrees)}{magnetic}  el {Figures.Of(hold.Elevation.Degrees, 4, 1)}");
    }

    private static string Magnetic(Snapshot now, Hold hold) => now.Settings?.MagneticDeclination is { } declination
        ? $" (mag {Figures.Azimuth((hold.Azimuth - declination).WrappedToTurn().Degrees)})"
        : "";
}
