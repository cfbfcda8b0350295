using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>Which sessions of a list are wanted.</summary>
internal sealed class SessionFilter
{
    private readonly Option<string> _satellite = new("--satellite") { HelpName = "NAME", Description = "Only this satellite" };

    private readonly Option<DateTimeOffset?> _from =
        CommonOptions.Value("--from", "UTC", "Only those that began then or later, like 2026-11-25T10:15:00Z", (text, source) => Core.Formats.Options.InstantText.Read(text, source));

    private readonly Option<DateTimeOffset?> _to =
        CommonOptions.Value("--to", "UTC", "Only those that began before", (text, source) => Core.Formats.Options.InstantText.Read(text, source));

    private readonly Option<Angle?> _top =
        CommonOptions.Value("--top", "ANGLE", "Only passes at least so high, like 40deg", (text, source) => AngleText.Read(text, source, 0.0, 90.0));

    private readonly Option<string> _state = new("--state") { HelpName = "whole|cut-off|damaged", Description = "Only those in this state" };

    private readonly Option<string> _kind = new("--kind") { HelpName = "live|demo|simulated|rehearsal", Description = "Only those of this kind" };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        _state.AcceptOnlyFromAmong("whole", "cut-off", "damaged");
        _kind.AcceptOnlyFromAmong("live", "demo", "simulated", "rehearsal");
        foreach (Option option in new Option[] { _satellite, _from, _to, _top, _state, _kind })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The wanted ones of a list, in its order.</summary>
    public IEnumerable<SessionEntry> Of(ParseResult parsed, IEnumerable<SessionEntry> entries)
    {
        string? satellite = parsed.GetValue(_satellite);
        string? state = parsed.GetValue(_state)?.Replace('-', ' ');
        string? kind = parsed.GetValue(_kind);
        DateTimeOffset? from = parsed.GetValue(_from);
        DateTimeOffset? to = parsed.GetValue(_to);
        Angle? top = parsed.GetValue(_top);
        return entries.Where(e =>
            Same(satellite, e.Satellite) && Same(state, e.State) && Same(kind, e.Kind)
            && (from is null || e.FromUtc >= from) && (to is null || e.FromUtc < to) && (top is null || e.TopDegrees >= top.Value.Degrees));
    }

    private static bool Same(string? wanted, string found) => wanted is null || string.Equals(wanted, found, StringComparison.OrdinalIgnoreCase);
}
