using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The command of the moment in words: what the operator must do, and nothing else.</summary>
/// <param name="Word">The one word.</param>
/// <param name="Role">Its band.</param>
/// <param name="Seconds">Seconds until it becomes MOVE; null where that does not count.</param>
/// <param name="Side">Sideways part, for instance "LEFT 4"; null when there is none.</param>
/// <param name="SideArrow">Its arrow.</param>
/// <param name="Lift">Upward part, for instance "UP 2"; null when there is none.</param>
/// <param name="LiftArrow">Its arrow.</param>
internal sealed record Banner(string Word, Role Role, int? Seconds, string? Side, char SideArrow, string? Lift, char LiftArrow)
{
    /// <summary>The command of a snapshot with the move as it is shown.</summary>
    public static Banner Of(Snapshot now, ShownMove? move)
    {
        AimWord word = now.Aim.Word;
        bool moves = word is AimWord.Move or AimWord.Next or AimWord.Search;
        int side = moves && move is not null ? move.Side : 0;
        int lift = moves && move is not null ? move.Lift : 0;
        return new Banner(
            WordOf(word),
            RoleOf(word),
            word is AimWord.Next or AimWord.Hold or AimWord.Search && now.Aim.NudgeAt is { } at ? (int)Math.Ceiling(Math.Max(0.0, (at - now.Utc).TotalSeconds)) : null,
            side == 0 ? null : SideOf(side, move?.Pan ?? false),
            side < 0 ? Arrows.Left : Arrows.Right,
            lift == 0 ? null : Figure(lift > 0 ? "UP" : "DOWN", lift),
            lift < 0 ? Arrows.Down : Arrows.Up);
    }

    /// <summary>The whole command in one line of text.</summary>
    public override string ToString()
    {
        string seconds = Seconds is { } s ? string.Create(CultureInfo.InvariantCulture, $" {s} s:") : "";
        string side = Side is null ? "" : $"  {SideArrow} {Side}";
        string lift = Lift is null ? "" : $"  {LiftArrow} {Lift}";
        return $"{Word}{seconds}{side}{lift}";
    }

    private static string SideOf(int side, bool pan) => Figure((pan ? "PAN " : "") + (side < 0 ? "LEFT" : "RIGHT"), side);

    private static string Figure(string name, int degrees) => string.Create(CultureInfo.InvariantCulture, $"{name} {Math.Abs(degrees)}");

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
