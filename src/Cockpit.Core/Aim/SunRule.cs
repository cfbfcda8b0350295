namespace Cockpit.Core.Aim;

/// <summary>What the plan does where the satellite passes the sun.</summary>
public enum SunRule
{
    /// <summary>It follows the satellite all the same.</summary>
    Fly = 0,

    /// <summary>It stays more than a beam width away from the sun.</summary>
    Skip = 1,
}
