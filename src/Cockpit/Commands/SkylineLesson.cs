using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>How a lesson goes on.</summary>
internal enum LessonState
{
    /// <summary>More points come.</summary>
    Open = 0,

    /// <summary>They are to be kept.</summary>
    Kept = 1,

    /// <summary>Nothing is to be kept.</summary>
    Left = 2,
}

/// <summary>A skyline as it is taught point by point, while the dish is panned along trees and roofs. Pure.</summary>
/// <param name="Turn">What is added to an azimuth as it is read to have the true one, degrees.</param>
internal sealed record SkylineLesson(double Turn)
{
    /// <summary>A step of the arrow keys along the horizon, degrees.</summary>
    public const double AlongDegrees = 5.0;

    private const int MostPoints = 3600;
    private const int LongestTyped = 24;

    /// <summary>Elevation by azimuth as it is read, degrees.</summary>
    public ImmutableSortedDictionary<double, double> Points { get; init; } = ImmutableSortedDictionary<double, double>.Empty;

    /// <summary>The azimuths in the order in which they were taken.</summary>
    public ImmutableArray<double> Order { get; init; } = [];

    /// <summary>Where the arrow keys stand, degrees as read.</summary>
    public double Azimuth { get; init; }

    /// <summary>Where the arrow keys stand, degrees.</summary>
    public double Elevation { get; init; }

    /// <summary>What is typed and not taken yet.</summary>
    public string Typed { get; init; } = "";

    /// <summary>What became of the last key.</summary>
    public string Note { get; init; } = "";

    /// <summary>How it goes on.</summary>
    public LessonState State { get; init; }

    /// <summary>A lesson that goes on from a skyline that is there.</summary>
    /// <param name="mask">The skyline, azimuth true.</param>
    public SkylineLesson From(HorizonMask mask) => this with
    {
        Points = mask.Points.ToImmutableSortedDictionary(point => Wrapped(point.Azimuth.Degrees - Turn), point => Rounded(point.Elevation.Degrees)),
    };

    /// <summary>The skyline, azimuth true; null while there is no point.</summary>
    public HorizonMask? Mask => Points.IsEmpty
        ? null
        : new HorizonMask(Points.Select(point => new HorizonPoint(Angle.FromDegrees(Wrapped(point.Key + Turn)), Angle.FromDegrees(point.Value))));

    /// <summary>The skyline as the settings keep it, azimuth true: "0:5,90:12".</summary>
    public string Text => string.Join(',', (Mask?.Points ?? []).Select(point =>
        string.Create(CultureInfo.InvariantCulture, $"{Wrapped(point.Azimuth.Degrees):0.#}:{point.Elevation.Degrees:0.#}")));

    /// <summary>A key, by its name or the character it types.</summary>
    public SkylineLesson Press(string key) => key switch
    {
        "Left" => Moved(-AlongDegrees, 0),
        "Right" => Moved(AlongDegrees, 0),
        "Up" => Moved(0, 1),
        "Down" => Moved(0, -1),
        "Enter" => Typed.Length > 0 ? Read(Typed) with { Typed = "" } : Take(Azimuth, Elevation),
        "Backspace" => Typed.Length > 0 ? this with { Typed = Typed[..^1], Note = "" } : TakeBack(),
        "S" or "s" => Points.IsEmpty ? this with { Note = "there is no point to keep yet" } : this with { State = LessonState.Kept },
        "Q" or "q" or "Escape" => this with { State = LessonState.Left },
        [var letter] when "0123456789.-+:,; ".Contains(letter, StringComparison.Ordinal) && Typed.Length < LongestTyped => this with { Typed = Typed + letter, Note = "" },
        _ => this,
    };

    /// <summary>A line: "AZ EL", "undo", "done" or "quit".</summary>
    public SkylineLesson Line(string line)
    {
        string text = line.Trim();
        return text.ToLowerInvariant() switch
        {
            "" => this,
            "undo" or "-" => TakeBack(),
            "done" => Press("S"),
            "quit" => Press("Q"),
            _ => Read(text),
        };
    }

    private SkylineLesson Read(string text)
    {
        string[] parts = text.Split([' ', '\t', ',', ';', ':'], StringSplitOptions.RemoveEmptyEntries);
        return parts.Length == 2 && NumberText.TryRead(parts[0], out double azimuth) && NumberText.TryRead(parts[1], out double elevation)
            ? Take(azimuth, elevation)
            : this with { Note = $"{Quoted.Of(text)} is not an azimuth and an elevation in degrees; write them like 200 12" };
    }

    private SkylineLesson Take(double azimuth, double elevation)
    {
        if (!(azimuth is >= -360.0 and <= 720.0) || !(elevation is >= -10.0 and <= 80.0))
        {
            return this with { Note = "an azimuth goes from 0 to 360 and an elevation from -10 to 80 degrees" };
        }

        double at = Wrapped(azimuth);
        double high = Rounded(elevation);
        string instead = Points.TryGetValue(at, out double before) ? string.Create(CultureInfo.InvariantCulture, $", in place of {before:0.#}") : "";
        return Points.Count >= MostPoints && !Points.ContainsKey(at)
            ? this with { Note = "there are too many points" }
            : this with
            {
                Points = Points.SetItem(at, high),
                Order = [.. Order.Where(other => other != at), at],
                Azimuth = at,
                Elevation = high,
                Note = string.Create(CultureInfo.InvariantCulture, $"taken: azimuth {at:0.#}, elevation {high:0.#}{instead}"),
            };
    }

    private SkylineLesson TakeBack() => Order is [.., var last]
        ? this with
        {
            Points = Points.Remove(last),
            Order = Order[..^1],
            Note = string.Create(CultureInfo.InvariantCulture, $"taken back: azimuth {last:0.#}"),
        }
        : this with { Note = "there is no point of this lesson to take back" };

    private SkylineLesson Moved(double along, double up) => this with
    {
        Azimuth = Wrapped(Azimuth + along),
        Elevation = Math.Clamp(Elevation + up, -10.0, 80.0),
        Note = "",
    };

    /// <summary>In [0, 360), to a tenth: what a scale shows.</summary>
    private static double Wrapped(double degrees)
    {
        double wrapped = Rounded(((degrees % 360.0) + 360.0) % 360.0);
        return wrapped >= 360.0 ? 0.0 : wrapped;
    }

    // Zero is added so that there is no -0.
    private static double Rounded(double degrees) => Math.Round(degrees, 1, MidpointRounding.AwayFromZero) + 0.0;
}
