using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The command of the moment: what the operator must do, how far, and when.</summary>
/// <param name="Word">The one word.</param>
/// <param name="Role">Its band.</param>
/// <param name="Left">Time until it becomes MOVE; null where that does not count.</param>
/// <param name="Side">Degrees sideways, positive = right; 0 when there is nothing to say.</param>
/// <param name="Lift">Degrees upwards; 0 when there is nothing to say.</param>
/// <param name="Mount">Whose degrees they are.</param>
internal sealed record Banner(string Word, Role Role, TimeSpan? Left, int Side, int Lift, Mount Mount)
{
    /// <summary>The command of a snapshot with the move as it is shown.</summary>
    public static Banner Of(Snapshot now, ShownMove? move)
    {
        AimWord word = now.Aim.Word;
        bool moves = word is AimWord.Move or AimWord.Next or AimWord.Search or AimWord.Hold;
        bool waits = word is AimWord.Next or AimWord.Hold or AimWord.Search;
        TimeSpan? left = waits && now.Aim.NudgeAt is { } at ? at - now.Utc : null;
        return new Banner(
            WordOf(word),
            RoleOf(word),
            left < TimeSpan.Zero ? TimeSpan.Zero : left,
            moves && move is not null ? move.Side : 0,
            moves && move is not null ? move.Lift : 0,
            now.Aim.Mount);
    }

    /// <summary>The time left as a number and its unit in plain letters: whole seconds, a started one counts; from 100 s on minutes.</summary>
    public (string Number, string Unit)? Countdown => Left is not { } left ? null
        : left.TotalSeconds <= 99.0 ? (Whole(Math.Ceiling(left.TotalSeconds)), "s")
        : (Whole(Math.Round(left.TotalMinutes, MidpointRounding.AwayFromZero)), "min");

    /// <summary>The sideways part in words, for instance "LEFT 4° pan"; null when there is none.</summary>
    public string? SideWords => Side == 0 ? null : Words(Side < 0 ? "LEFT" : "RIGHT", Side, Mount == Mount.PanTilt ? " pan" : "");

    /// <summary>The upward part in words, for instance "UP 2° tilt"; null when there is none.</summary>
    public string? LiftWords => Lift == 0 ? null : Words(Lift < 0 ? "DOWN" : "UP", Lift, Mount == Mount.PanTilt ? " tilt" : "");

    /// <summary>The whole command in one line of text.</summary>
    public override string ToString()
    {
        string left = Countdown is { } c ? $" {c.Number} {c.Unit}:" : "";
        string side = SideWords is null ? "" : $"  {Arrow(Side, Arrows.Left, Arrows.Right)} {SideWords}";
        string lift = LiftWords is null ? "" : $"  {Arrow(Lift, Arrows.Down, Arrows.Up)} {LiftWords}";
        return $"{Word}{left}{side}{lift}";
    }

    /// <summary>The arrow of a sign.</summary>
    public static char Arrow(int degrees, char negative, char positive) => degrees < 0 ? negative : positive;

    private static string Words(string name, int degrees, string unit) => string.Create(CultureInfo.InvariantCulture, $"{name} {Math.Abs(degrees)}°{unit}");

    private static string Whole(double number) => number.ToString("0", CultureInfo.InvariantCulture);

    private static string WordOf(AimWord word) => word switch
    {
        AimWord.Point => "POINT",
        AimWord.Hold => "HOLD",
        AimWord.Next => "NEXT",
        AimWord.Move => "MOVE",
        AimWord.Search => "SEARCH",
        AimWord.Done => "DONE",
        _ => throw new ArgumentOutOfRangeException(nameof(word)),
    };

    private static Role RoleOf(AimWord word) => word switch
    {
        AimWord.Point => Role.Point,
        AimWord.Hold => Role.Hold,
        AimWord.Next => Role.Next,
        AimWord.Move => Role.Move,
        AimWord.Search => Role.Search,
        AimWord.Done => Role.Done,
        _ => throw new ArgumentOutOfRangeException(nameof(word)),
    };
}
