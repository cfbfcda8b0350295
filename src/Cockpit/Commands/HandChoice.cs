using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Settings;

namespace Cockpit.Commands;

/// <summary>For which hand the guidance is made.</summary>
public enum HandChoice
{
    /// <summary>The hand as the last passes tell it.</summary>
    Learnt = 0,

    /// <summary>The first passes of someone's life.</summary>
    Novice = 1,

    /// <summary>Some tens of passes.</summary>
    Practised = 2,
}

/// <summary>A choice of a hand put into the settings of a session.</summary>
internal static class ChosenHand
{
    private const double QuickSeconds = 0.62; // half way between a practised hand and a novice

    /// <summary>Reads --hand.</summary>
    public static Parsed<HandChoice> Read(string text, string source) => text switch
    {
        "learnt" => HandChoice.Learnt,
        "novice" => HandChoice.Novice,
        "practised" => HandChoice.Practised,
        _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a hand; choose learnt, novice or practised"),
    };

    /// <summary>The settings with the hand in them, and the line that says which.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="asked">What was asked for; null: learnt, where something was.</param>
    /// <param name="root">Folder of all sessions.</param>
    /// <returns>A line of null where nothing was asked for and nothing is known: then it is a novice's, as ever.</returns>
    public static (SessionSettings Settings, string? Line) In(SessionSettings settings, HandChoice? asked, string root)
    {
        if (asked is HandChoice.Novice or HandChoice.Practised)
        {
            bool novice = asked == HandChoice.Novice;
            return (settings with { CueLead = novice ? SessionSettings.UsualCueLead : CockpitSettings.PractisedLead, Hand = null }, novice ? "hand: novice" : "hand: practised");
        }

        LearntHand learnt = HandFile.Read(root, TimeProvider.System);
        if (learnt.Settings() is not { } hand)
        {
            return (settings, asked is null ? null : "hand: novice, for too little is learnt yet: it needs the key \"moved\" after eight calls, or a level that tells the amounts, in sessions of live");
        }

        bool quick = hand.ReactionSeconds is < QuickSeconds;
        return (settings with { CueLead = quick ? CockpitSettings.PractisedLead : settings.CueLead, Hand = hand }, LineOf(learnt));
    }

    private static string LineOf(LearntHand learnt)
    {
        string reaction = learnt.ReactionSeconds is { } r ? string.Create(CultureInfo.InvariantCulture, $"begins {r.Value:0.00} s after a call ± {r.Sd:0.00}") : "reaction as of a novice";
        string amount = learnt.Amount is { } a ? string.Create(CultureInfo.InvariantCulture, $"moves {a.Value:0.00} of what is called ± {a.Sd:0.00}") : "amounts as called";
        return string.Create(CultureInfo.InvariantCulture, $"hand: learnt from {learnt.Passes} {(learnt.Passes == 1 ? "pass" : "passes")}: {reaction}, {amount}; --hand novice takes the standard one");
    }
}
