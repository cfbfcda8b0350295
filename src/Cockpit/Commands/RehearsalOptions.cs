using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Session.Rehearsal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>Who steers in a rehearsal.</summary>
internal enum Steerer
{
    /// <summary>A person, by the keys.</summary>
    Keys = 0,

    /// <summary>A simulated hand without practice.</summary>
    Novice = 1,

    /// <summary>A simulated hand with practice.</summary>
    Practised = 2,
}

/// <summary>The options that make the world of a rehearsal.</summary>
internal sealed class RehearsalOptions
{
    private readonly Option<Steerer?> _skill = CommonOptions.Choice<Steerer>("--skill", "Who steers: you by the keys (where missing, on a terminal), or a simulated hand to watch");
    private readonly Option<double?> _wind = CommonOptions.Number("--wind", "DEG", FormattableString.Invariant($"Sway of the dish in the wind, standard deviation in degrees; {WorldModel.Honest.WindDegrees} where missing"), 0.0, 10.0);
    private readonly Option<double?> _fading = CommonOptions.Number("--fading", "FACTOR", "Multiplies the fading of the signal; 1 where missing", 0.0, 10.0);
    private readonly Option<double?> _compass = CommonOptions.Number("--compass-error", "DEG", "How far the dish stands off in azimuth at set-up; by the seed, ten degrees usually, where missing", -90.0, 90.0);
    private readonly Option<long?> _seed = CommonOptions.Whole("--seed", "N", "The same weather and errors again; another each time where missing", 0, long.MaxValue);

    private readonly Option<bool> _sensor = new("--sensor") { Description = "A sensor on the dish too, wrong by as much as such sensors are: the program learns by how much, and its sounds lead the dish from then on" };

    /// <summary>Gives the options to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _skill, _wind, _fading, _compass, _sensor, _seed })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Who steers; a simulated hand where there is no terminal, or one sentence why not the keys.</summary>
    public Parsed<Steerer> SteererOf(ParseResult parsed, bool plain) => (parsed.GetValue(_skill), plain) switch
    {
        (Steerer.Keys, true) => new ParseError(_skill.Name, 0, 0, "keys need the screen; leave --plain out, or choose novice or practised"),
        ({ } chosen, _) => chosen,
        (null, true) => Steerer.Practised,
        _ => Steerer.Keys,
    };

    /// <summary>The seed; by the clock where none was given.</summary>
    public ulong SeedOf(ParseResult parsed, DateTimeOffset now) => (ulong)(parsed.GetValue(_seed) ?? (now.UtcTicks / TimeSpan.TicksPerSecond % 100_000));

    /// <summary>Signal and wind.</summary>
    public WorldModel WorldOf(ParseResult parsed) => WorldModel.Honest with
    {
        Name = "rehearsal",
        WindDegrees = parsed.GetValue(_wind) ?? WorldModel.Honest.WindDegrees,
        FadingFactor = parsed.GetValue(_fading) ?? WorldModel.Honest.FadingFactor,
    };

    /// <summary>What is wrong with the sensor on the dish; null for none.</summary>
    public SensorWorld? SensorOf(ParseResult parsed) => parsed.GetValue(_sensor) ? new SensorWorld() : null;

    /// <summary>Error of the compass, degrees; null = by the seed.</summary>
    public double? CompassErrorOf(ParseResult parsed) => parsed.GetValue(_compass);
}
