using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check reference: every published table against what the program computes.</summary>
public static class CheckReferenceCommand
{
    private const string UsualFolder = "tests/data/reference";

    /// <summary>The command.</summary>
    public static Command Create()
    {
        var folder = new Argument<string>("folder")
        {
            HelpName = "FOLDER",
            Description = $"The reference values; {UsualFolder} where missing",
            DefaultValueFactory = _ => UsualFolder,
        };
        var cases = new Option<bool>("--cases") { Description = "Also a line for each of the 33 published cases and each invented element set of SGP4" };
        var command = new Command(
            "reference",
            """
            Compare the program with published values: a line a table and quantity with the largest difference and its tolerance.

            Example:
              cockpit check reference tests/data/reference
            """)
        {
            folder,
            cases,
        };
        command.SetAction(parsed => Run(
            parsed.GetRequiredValue(folder), parsed.GetValue(cases), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error));
        return command;
    }

    private static int Run(string folder, bool cases, TextWriter output, TextWriter complaints)
    {
        if (!Directory.Exists(folder))
        {
            complaints.WriteLine($"{folder}: there is no such folder; give the folder of the reference values");
            return CommandRoot.WrongInput;
        }

        string reading = folder;
        string Text(string name)
        {
            reading = Path.Combine(folder, name.Replace('/', Path.DirectorySeparatorChar));
            return File.ReadAllText(reading);
        }

        try
        {
            ImmutableArray<TableCheck> checks = [.. OrbitTables.Compare(Text), .. FrameTables.Compare(Text), .. HeavensTables.Compare(Text), .. GroundTables.Compare(Text), .. OrientationTables.Compare(Text)];
            checks = [.. checks.OrderBy(check => check.Table, StringComparer.Ordinal)];
            if (cases)
            {
                foreach (StateComparison result in OrbitTables.Published(Text).Concat(OrbitTables.Synthetic(Text)))
                {
                    output.WriteLine(result.ToString());
                }
            }

            foreach (TableCheck check in checks)
            {
                output.WriteLine(check.ToString());
            }

            int failed = checks.Count(check => !check.Ok);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{checks.Length} comparisons, {failed} outside their tolerance"));
            return failed == 0 ? 0 : CommandRoot.Failed;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException or JsonException or KeyNotFoundException)
        {
            complaints.WriteLine($"{reading}: {e.Message.TrimEnd('.')}; the folder of the reference values must be whole");
            return CommandRoot.WrongInput;
        }
    }
}
