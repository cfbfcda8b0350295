using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>Where the dish has to go, seen from behind it: target minus dish, on the sky.</summary>
/// <param name="Right">Sideways on the sky in the dish's own frame, positive = right; for a small move the pan times cos(elevation).</param>
/// <param name="Up">Upwards on the sky in the dish's own frame, positive = up; for a small move the tilt.</param>
/// <param name="Pan">The same move at the tripod head, first axis: positive = clockwise seen from above, (-180°, 180°]; large overhead.</param>
/// <param name="Tilt">The same move at the tripod head, second axis: elevation of the target minus elevation of the dish.</param>
public readonly record struct AimError(Angle Right, Angle Up, Angle Pan, Angle Tilt = default)
{
    /// <summary>Size of the move on the sky.</summary>
    public Angle Total => Angle.FromRadians(Math.Sqrt((Right.Radians * Right.Radians) + (Up.Radians * Up.Radians)));
}

/// <summary>A direction of the dish with how well it is known.</summary>
/// <param name="Azimuth">True, from north through east, [0°, 360°).</param>
/// <param name="Elevation">Above the horizontal, [-90°, 90°].</param>
/// <param name="Spread">One standard deviation on the sky, per axis.</param>
/// <param name="Origin">Where the knowledge comes from.</param>
public sealed record Pointing(Angle Azimuth, Angle Elevation, Angle Spread, PointingOrigin Origin);

/// <summary>Where a pointing comes from, weakest first.</summary>
public enum PointingOrigin
{
    /// <summary>Set up by compass or landmark at the predicted rise.</summary>
    Plan = 0,

    /// <summary>The operator said "peaked", nothing moved since.</summary>
    Mark = 1,

    /// <summary>A mark and the nudges confirmed or assumed since.</summary>
    MarkAndNudges = 2,

    /// <summary>The level says so: the satellite's way through the beam, and the nudges.</summary>
    Level = 4,

    /// <summary>A sensor on the dish.</summary>
    Sensor = 3,
}

/// <summary>A fixed direction of the dish for a span of the pass, chosen so that the satellite stays in the beam.</summary>
/// <param name="Number">From 1.</param>
/// <param name="FromUtc">When the dish must be there, UTC.</param>
/// <param name="ToUtc">When the satellite leaves it, UTC.</param>
/// <param name="Azimuth">True azimuth of the dish, [0°, 360°).</param>
/// <param name="Elevation">Elevation of the dish.</param>
/// <param name="WorstLoss">Largest pointing loss in the span.</param>
/// <param name="Skip">The sun is too near, so that the dish stands elsewhere; null for a hold that is flown.</param>
public sealed record Hold(int Number, DateTimeOffset FromUtc, DateTimeOffset ToUtc, Angle Azimuth, Angle Elevation, Decibels WorstLoss, SunSkip? Skip = null)
{
    /// <summary>Where the dish stands.</summary>
    public SkyPlace Flown() => Skip is { } skip ? new SkyPlace(skip.Azimuth, skip.Elevation) : new SkyPlace(Azimuth, Elevation);
}
