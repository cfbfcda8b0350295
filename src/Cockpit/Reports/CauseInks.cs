using System.Collections.Immutable;
using System.Text;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The colour of each cause on paper and on a dark screen.</summary>
/// <param name="Cause">The cause.</param>
/// <param name="Paper">Hexadecimal, on a light ground.</param>
/// <param name="Dark">Hexadecimal, on a dark ground.</param>
internal readonly record struct CauseInk(GapCause Cause, string Paper, string Dark)
{
    /// <summary>All of them: the eight colours of Okabe and Ito (2008), which stay apart without red, green or blue sight, and six between them.</summary>
    /// <remarks>Fourteen colours cannot all stay apart: a cause has its own row and its name in the strip, its number elsewhere. Colour only helps.</remarks>
    public static ImmutableArray<CauseInk> All { get; } =
    [
        new(GapCause.Unknown, "#a9adb3", "#8d939b"), new(GapCause.Late, "#e69f00", "#f0b030"), new(GapCause.Amount, "#d55e00", "#f07a28"),
        new(GapCause.WrongWay, "#c8609a", "#e08abb"), new(GapCause.NotFound, "#bfa800", "#e8d84a"), new(GapCause.OffAim, "#8c5a12", "#bd8a45"),
        new(GapCause.Fade, "#3fa2dc", "#6cc0f5"), new(GapCause.Skyline, "#009e73", "#25bd90"), new(GapCause.Weak, "#8a94a1", "#98a3b0"),
        new(GapCause.Overload, "#0072b2", "#3f9be0"), new(GapCause.FeedSilent, "#7570b3", "#a29de0"), new(GapCause.RecorderStopped, "#a0306a", "#d4609c"),
        new(GapCause.NotTransmitting, "#555a62", "#7b828c"), new(GapCause.Sun, "#b4301f", "#ff8f7a"),
    ];

    /// <summary>Colour of a cause on paper.</summary>
    public static string PaperOf(GapCause cause) => All.First(ink => ink.Cause == cause).Paper;

    /// <summary>The rules of a style sheet: <c>.c-NAME</c> sets the colour of whatever is drawn.</summary>
    public static string Css()
    {
        var css = new StringBuilder();
        foreach (CauseInk ink in All)
        {
            css.Append(".c-").Append(CauseWords.NameOf(ink.Cause)).Append("{--cause:").Append(ink.Paper).Append("}\n");
        }

        css.Append("@media screen and (prefers-color-scheme:dark){\n");
        foreach (CauseInk ink in All)
        {
            css.Append(".c-").Append(CauseWords.NameOf(ink.Cause)).Append("{--cause:").Append(ink.Dark).Append("}\n");
        }

        return css.Append("}\n").ToString();
    }
}
