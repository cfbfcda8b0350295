using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Orbit;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit elements: what is there, how old, and how far off that usually is.</summary>
public static class ElementsCommand
{
    private static readonly OutputColumn[] Columns =
    [
        new("satellite", "satellite", -24), new("catalog_number", "number", 7), new("epoch_utc", "epoch UTC", -19), new("age_days", "days", 7),
        new("along_track_up_to_km", "km off", 7), new("along_track_up_to_s", "s off", 7), new("counsel", "", -20),
    ];

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now".</param>
    public static Command Create(TimeProvider clock)
    {
        Option<string> elements = CommonOptions.Elements();
        Option<string> satellite = CommonOptions.Satellite();
        Option<DateTimeOffset?> at = CommonOptions.At();
        Option<OutputFormat> format = CommonOptions.Format();
        elements.Required = true;
        Command command = new(
            "elements",
            """
            List the element sets of a file: how old they are, and by how much a satellite of that age usually comes early or late, at most.

            Examples:
              cockpit elements
              cockpit elements --elements elements.txt --satellite "PETREL 2"
              cockpit elements update
            """)
        {
            elements, satellite, at, format, ElementsUpdateCommand.Create(clock),
        };
        command.SetAction(parsed =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            string path = parsed.GetRequiredValue(elements);
            if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            ImmutableArray<ElementSet> newest = NewestElements.Of(sets);
            if (parsed.GetValue(satellite) is { } wanted)
            {
                if (!ElementsInput.Pick(sets, path, wanted).Try(out ElementSet? only, out error))
                {
                    complaints.WriteLine(error.ToString());
                    return CommandRoot.WrongInput;
                }

                newest = [only];
            }

            Print(newest, parsed.GetValue(at) ?? clock.GetUtcNow(), new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(format), Columns));
            return 0;
        });
        return command;
    }

    private static void Print(ImmutableArray<ElementSet> sets, DateTimeOffset now, OutputRows rows)
    {
        rows.Begin();
        foreach (ElementSet set in sets.OrderBy(one => one.Name, StringComparer.OrdinalIgnoreCase))
        {
            ElementAge age = ElementAge.At(set, now);
            rows.Add(
            [
                Cell.Of(set.Name.Trim()), Cell.Of(set.CatalogNumber.ToString(CultureInfo.InvariantCulture)), Cell.Of(set.EpochUtc, 3), Cell.Of(age.Age.TotalDays, 3, 1),
                Cell.Of(age.HighKm, 2, 1), Cell.Of(age.HighSeconds, 2, 1), Cell.Of(Counsel(age)),
            ]);
        }

        rows.End();
    }

    /// <summary>A dish of 0.8 m sees a satellite overhead move through a tenth of its beam in a second and a half.</summary>
    private static string Counsel(ElementAge age) => Math.Abs(age.HighSeconds) switch
    {
        > 5.0 => "too old: update",
        > 1.5 => "update soon",
        _ => "good",
    };
}
