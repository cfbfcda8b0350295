namespace Cockpit.Screen.Panels;

/// <summary>What stands in the middle of the page.</summary>
internal enum PlotView
{
    /// <summary>The aim and the sky.</summary>
    Sky = 0,

    /// <summary>The aim and the picture as it grows.</summary>
    Picture = 1,

    /// <summary>The review of the pass.</summary>
    Review = 2,

    /// <summary>What has to be right before the pass.</summary>
    Readiness = 3,

    /// <summary>How a phone is paired.</summary>
    Pairing = 4,
}
