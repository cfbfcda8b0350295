namespace Cockpit.Session.Review;

/// <summary>Names of the causes as they are printed.</summary>
public static class CauseWords
{
    /// <summary>The name in JSON and tables.</summary>
    public static string NameOf(GapCause cause) => cause switch
    {
        GapCause.Late => "late",
        GapCause.Amount => "amount",
        GapCause.WrongWay => "wrong-way",
        GapCause.NotFound => "not-found",
        GapCause.OffAim => "off-aim",
        GapCause.Fade => "fade",
        GapCause.Skyline => "skyline",
        GapCause.Weak => "weak",
        GapCause.Overload => "overload",
        GapCause.FeedSilent => "feed-silent",
        GapCause.RecorderStopped => "recorder-stopped",
        GapCause.NotTransmitting => "not-transmitting",
        GapCause.Sun => "sun",
        _ => "unknown",
    };
}
