using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say with what one receives which service.</summary>
public sealed class DishOptions
{
    private static readonly LinkModel Usual = new();

    private readonly Option<double?> _diameter = Number("--dish", "METRES", "Diameter of the dish in metres; 0.8 where missing", 0.2, 10.0);
    private readonly Option<double?> _noiseFigure = Number("--noise-figure", "DB", "Noise figure of the first amplifier in dB; 0.7 where missing", 0.0, 15.0);
    private readonly Option<double?> _eirp = Number("--eirp", "DBM", "Radiated power of the satellite seen low in the sky, in dBm; 39 where missing, give or take 3 dB", 0.0, 80.0);
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<string?> _service;

    /// <summary>Makes the options for one command.</summary>
    public DishOptions()
    {
        _service = new Option<string?>("--service")
        {
            HelpName = "NAME",
            Description = $"What is received: {Names}; {Usual.Service.Name} where missing",
        };
        _service.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var name }] && Service.Named(name) is null)
            {
                result.AddError($"--service: {Quoted.Of(name)} is not a service; choose {Names}");
            }
        });
    }

    private static string Names => string.Join(", ", Service.All.Select(service => service.Name));

    /// <summary>Gives the options to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        ArgumentNullException.ThrowIfNull(command);
        command.Options.Add(_diameter);
        command.Options.Add(_noiseFigure);
        command.Options.Add(_service);
        command.Options.Add(_eirp);
        command.Options.Add(_carrier);
    }

    /// <summary>The link that is meant.</summary>
    /// <param name="parsed">The command line.</param>
    public LinkModel Read(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        Dbm usualEirp = Usual.Eirp.At(Angle.Zero);
        return Usual with
        {
            Carrier = parsed.GetValue(_carrier) ?? Usual.Carrier,
            Service = parsed.GetValue(_service) is { } name ? Service.Named(name)! : Usual.Service,
            Eirp = Usual.Eirp.Raised(new Dbm(parsed.GetValue(_eirp) ?? usualEirp.Value) - usualEirp),
            Dish = Usual.Dish with
            {
                DiameterMetres = parsed.GetValue(_diameter) ?? Usual.Dish.DiameterMetres,
                NoiseFigure = new Decibels(parsed.GetValue(_noiseFigure) ?? Usual.Dish.NoiseFigure.Value),
            },
        };
    }

    private static Option<double?> Number(string name, string helpName, string description, double lowest, double highest) =>
        CommonOptions.Value<double>(name, helpName, description, (text, source) =>
            NumberText.TryRead(text, out double value) && value >= lowest && value <= highest
                ? value
                : new ParseError(source, 0, 0, FormattableString.Invariant($"{Quoted.Of(text)} is not a number from {lowest} to {highest}")));
}
