namespace Cockpit.Screen.Panels;

/// <summary>The four arrows: always where the dish must go, seen from behind it.</summary>
internal static class Arrows
{
    public const char Left = '◄';
    public const char Right = '►';
    public const char Up = '▲';
    public const char Down = '▼';
}
