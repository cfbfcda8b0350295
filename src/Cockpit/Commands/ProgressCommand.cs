using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit progress: whether it gets better from pass to pass, as far as the numbers carry it.</summary>
public static class ProgressCommand
{
    private const int FewestLines = 600; // less than 100 s of a pass says little
    private const string Blocks = "▁▂▃▄▅▆▇█";

    private static readonly OutputColumn[] Columns =
    [
        new("from_utc", "UTC", -19), new("satellite", "satellite", -14), new("top_deg", "top°", 5), new("share", "%", 6),
        new("reaction_s", "reaction", 8), new("amount", "amount", 7),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<string> sessions = new SessionOptions().Sessions;
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "progress",
            """
            Say whether it gets better from pass to pass: share of the lines, reaction, amounts; a change is named only where the numbers carry it.

            Sessions that watched less than 100 s of their pass are left out.

            Examples:
              cockpit progress
              cockpit progress --format csv
            """)
        {
            sessions, format,
        };
        command.SetAction(parsed =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!SessionIndex.Read(parsed.GetRequiredValue(sessions), complaints).Try(out ImmutableArray<SessionEntry> all, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            SessionEntry[] passes = [.. all.Where(e => e.Sent >= FewestLines)];
            if (parsed.GetValue(format) == OutputFormat.Table)
            {
                Tell(output, passes, all.Length);
            }
            else
            {
                Rows(passes, new OutputRows(output, parsed.GetValue(format), Columns));
            }

            return 0;
        });
        return command;
    }

    /// <summary>Small bars, lowest to highest.</summary>
    /// <param name="values">At least one.</param>
    public static string Sparkline(IReadOnlyCollection<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double low = values.Min();
        double span = values.Max() - low;
        return string.Concat(values.Select(v => Blocks[span > 0.0 ? (int)Math.Min(7, 8 * (v - low) / span) : 3]));
    }

    private static void Rows(SessionEntry[] passes, OutputRows rows)
    {
        rows.Begin();
        foreach (SessionEntry e in passes)
        {
            rows.Add(
                e.FromUtc is { } from ? Cell.Of(from, 3) : Cell.None, Cell.Of(e.Satellite), Cell.Of(e.TopDegrees, 2, 0), Cell.Of(100.0 * e.Share, 2, 1),
                Cell.Of(e.ReactionSeconds, 3, 1), Cell.Of(e.Amount, 3, 2));
        }

        rows.End();
    }

    private static void Tell(TextWriter output, SessionEntry[] passes, int all)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{passes.Length} of {all} sessions watched at least 100 s of their pass"));
        Figure(output, "lines, %", passes.Select(e => 100.0 * e.Share), 1);
        Figure(output, "reaction, s", passes.Select(e => e.ReactionSeconds), 2);
        Figure(output, "amount", passes.Select(e => e.Amount), 2);
        foreach ((string name, double from, double to) in ((string, double, double)[])[("below 30°", 0, 30), ("30° to 60°", 30, 60), ("above 60°", 60, 91)])
        {
            double[] shares = [.. passes.Where(e => e.TopDegrees >= from && e.TopDegrees < to).Select(e => 100.0 * e.Share ?? 0.0)];
            if (shares.Length > 0)
            {
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-12} {shares.Average():0.0} % of the lines ± {Deviation(shares):0.0} in {shares.Length}"));
            }
        }
    }

    private static void Figure(TextWriter output, string name, IEnumerable<double?> figures, int decimals)
    {
        double[] values = [.. figures.OfType<double>()];
        if (values.Length == 0)
        {
            return;
        }

        string form = "0." + new string('0', decimals);
        string Number(double value) => value.ToString(form, CultureInfo.InvariantCulture);
        string change = Trend.Of(values) is { } trend
            ? $"{(trend.IsCarried ? trend.Slope > 0 ? "rises" : "falls" : "no change that the numbers carry")}: {Number(trend.Slope)} a session (95 %: {Number(trend.Low)} to {Number(trend.High)})"
            : "too few for a trend";
        output.WriteLine($"{name,-12} {Sparkline(values)}  {Number(values.Average())} ± {Number(Deviation(values))} in {values.Length}; {change}");
    }

    private static double Deviation(double[] values)
    {
        double mean = values.Average();
        return values.Length > 1 ? Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1)) : 0.0;
    }
}
