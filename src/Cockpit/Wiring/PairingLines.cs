using System.Collections.Immutable;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;

namespace Cockpit.Wiring;

/// <summary>How a phone is paired, in lines: the address, and in a terminal the code above it.</summary>
internal static class PairingLines
{
    /// <summary>Black on bright white (ECMA-48 SGR 30 and 107), then as it was.</summary>
    private const string BlackOnWhite = "\x1b[30;107m";
    private const string AsItWas = "\x1b[0m";

    /// <summary>Prints it.</summary>
    /// <param name="address">The address of the page.</param>
    /// <param name="output">Where to.</param>
    public static void Print(string address, TextWriter output)
    {
        ImmutableArray<string> code = QrCells.Of(address);
        if (HasRoom(code[0].Length))
        {
            TextWriter terminal = CleanWriter.TerminalBehind(output);
            foreach (string line in code)
            {
                terminal.WriteLine($"{BlackOnWhite}{line}{AsItWas}");
            }
        }

        output.WriteLine($"phone {address}");
        output.Flush();
    }

    /// <summary>Whether lines go to a terminal that is wide enough.</summary>
    private static bool HasRoom(int columns)
    {
        try
        {
            return !Console.IsOutputRedirected && !Drawing.Auto.IsSevenBit() && Console.WindowWidth >= columns;
        }
        catch (IOException)
        {
            return false;
        }
    }
}
