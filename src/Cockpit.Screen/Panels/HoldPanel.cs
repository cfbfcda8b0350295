using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>One line: how much of the hold is gone, as a bar, and where the dish goes then.</summary>
internal static class HoldPanel
{
    private static readonly TimeSpan LastMinute = TimeSpan.FromSeconds(60);

    public static Block Of(Snapshot now, int width)
    {
        Canvas canvas = new(width, 1);
        string place = Place(now);
        canvas.TextBefore(width - 1, 0, place, now.Aim.Target is null ? Role.Stale : Role.Plain);
        int length = width - 1 - place.Length - 2 - 1;
        if (length > 4)
        {
            DateTimeOffset? at = now.Aim.NudgeAt ?? (now.Aim.Word == AimWord.Point ? now.Sky?.Pass.Aos.Utc : null);
            Bar(canvas, 1, length, Gone(now, at));
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

    /// <summary>Where the dish goes next, so worded that it cannot be read as where it is.</summary>
    private static string Place(Snapshot now)
    {
        if (now.Aim.Target is not { } hold)
        {
            return "no further nudge      ";
        }

        // A call to read the compass has its own numbers, with the compass's probable error taken off: they stand in the strip alone.
        if (now.Aim.Compass is not null)
        {
            return "set by compass        ";
        }

        string when = now.Aim.Word switch
        {
            AimWord.Move => "go to",
            AimWord.Point => "first",
            _ => "then ",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{when} az {Whole(hold.Azimuth.WrappedToTurn().Degrees)}{Magnetic(now, hold)}  el {hold.Elevation.Degrees:00}");
    }

    private static string Magnetic(Snapshot now, Hold hold) => now.Settings?.MagneticDeclination is { } declination
        ? $" (mag {Whole((hold.Azimuth - declination).WrappedToTurn().Degrees)})"
        : "";

    private static string Whole(double degrees) => (Math.Round(degrees, MidpointRounding.AwayFromZero) % 360.0).ToString("000", CultureInfo.InvariantCulture);
}
