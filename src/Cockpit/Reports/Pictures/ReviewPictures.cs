using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports.Pictures;

/// <summary>The pictures of a review as PNG files.</summary>
/// <remarks>The picture library, with its native part, is touched here and nowhere else: a program that is not asked for pictures never loads it.</remarks>
public static class ReviewPictures
{
    private const string Option = "--pictures";

    /// <summary>Draws all of them, then writes them: none where one cannot be drawn.</summary>
    /// <param name="folder">Made where missing; files of the same names are replaced.</param>
    /// <param name="review">The review.</param>
    /// <param name="settings">What the session was about.</param>
    /// <param name="beamWidth">Half-power beamwidth of its dish.</param>
    /// <param name="halfAngle">The instrument's scan to either side of the vertical.</param>
    /// <returns>Null when they stand; else the one sentence why not.</returns>
    public static ParseError? Write(string folder, SessionReview review, SessionSettings settings, Angle beamWidth, Angle halfAngle)
    {
        ArgumentNullException.ThrowIfNull(review);
        ArgumentNullException.ThrowIfNull(settings);
        try
        {
            (string Name, byte[]? Png)[] pictures = Draw(review, settings, beamWidth, halfAngle);
            Directory.CreateDirectory(folder);
            return pictures.Where(p => p.Png is not null).Select(p => WholeFile.Write(Path.Combine(folder, p.Name), p.Png!, "the picture", Option)).FirstOrDefault(e => e is not null);
        }
        catch (Exception e) when (MissingLibrary(e) is { } library)
        {
            return new ParseError(Option, 0, 0, $"the picture library cannot be loaded ({library}); put it beside the program, or take --page, which needs none");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new ParseError(folder, 0, 0, $"the folder of the pictures cannot be made: {FileWords.Of(e)}; choose another with {Option}");
        }
    }

    private static (string Name, byte[]? Png)[] Draw(SessionReview review, SessionSettings settings, Angle beamWidth, Angle halfAngle)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"{PageWords.Short(review.SatelliteName)}, {review.FromUtc:yyyy-MM-dd HH:mm} UTC");
        return
        [
            ("lines.png", TimePlots.Lines(review, name)), ("level.png", TimePlots.Level(review, name)), ("aim.png", TimePlots.Aim(review, name, beamWidth.Degrees)),
            ("reaction.png", TimePlots.Reactions(review, name)), ("sky.png", SkyPlot.Draw(review, name)), ("map.png", MapPlot.Draw(review, settings, halfAngle, name)),
        ];
    }

    // The first use of a library that is not there comes as the failure of some type's first use.
    private static string? MissingLibrary(Exception? failure) => failure switch
    {
        DllNotFoundException or BadImageFormatException or EntryPointNotFoundException => failure.Message.Contains("HarfBuzz", StringComparison.OrdinalIgnoreCase) ? "libHarfBuzzSharp" : "libSkiaSharp",
        TypeInitializationException { InnerException: { } inner } => MissingLibrary(inner),
        _ => null,
    };
}
