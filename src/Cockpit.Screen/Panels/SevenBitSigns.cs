namespace Cockpit.Screen.Panels;

/// <summary>Signs and letters of Unicode in seven-bit characters (ISO/IEC 646), one for one.</summary>
public static class SevenBitSigns
{
    /// <summary>What has no twin.</summary>
    public const char Unknown = '?';

    /// <summary>A cell that is full.</summary>
    public const char Full = '#';

    /// <summary>A cell whose upper half is full.</summary>
    public const char UpperHalf = '"';

    /// <summary>What each sign becomes; a degree sign is left out, for every number without a unit is an angle.</summary>
    private static readonly Dictionary<char, char> Signs = new()
    {
        [BigLetters.Full] = Full, [BigLetters.UpperHalf] = UpperHalf, ['▄'] = 'o', ['▒'] = ':',
        ['▁'] = '_', ['▂'] = '_', ['▃'] = '.', ['▅'] = ':', ['▆'] = '|', ['▇'] = '|',
        ['─'] = '-', ['│'] = '|', ['┌'] = '+', ['┐'] = '+', ['└'] = '+', ['┘'] = '+', ['┼'] = '+', ['┤'] = '|', ['━'] = '=', ['╵'] = '\'',
        [Arrows.Left] = '<', [Arrows.Right] = '>', [Arrows.Up] = '^', [Arrows.Down] = 'v', ['→'] = '>', ['»'] = '>', ['‖'] = '|',
        ['●'] = '*', ['○'] = 'o', ['◐'] = '%', ['×'] = 'x', ['✗'] = 'x', ['•'] = 'o', ['∙'] = ',', ['·'] = '.', [SkyPanel.SunGlyph] = '$',
        ['°'] = ' ', ['–'] = '-', ['µ'] = 'u', ['±'] = '~', ['…'] = '~', ['\u00A0'] = ' ',
    };

    /// <summary>The twin of a sign.</summary>
    /// <param name="sign">Any sign; line ends and tabs stay.</param>
    public static char Of(char sign) => sign switch
    {
        (>= ' ' and <= '~') or '\n' or '\r' or '\t' => sign,
        >= BrailleStrokes.First and <= BrailleStrokes.Last => BrailleStrokes.Stroke(sign),
        _ => Signs.GetValueOrDefault(sign, Unknown),
    };
}
