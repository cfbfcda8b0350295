using System.CommandLine;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using Cockpit.Settings;

namespace Cockpit.Commands;

/// <summary>The options that say with what one receives which service.</summary>
public sealed class DishOptions
{
    private static readonly LinkModel Usual = CockpitSettings.Usual.Link;

    private readonly Option<double?> _diameter = CommonOptions.Dish();
    private readonly Option<double?> _noiseFigure = CommonOptions.Number(
        "--noise-figure", "DB", FormattableString.Invariant($"Noise figure of the first amplifier in dB; {Usual.Dish.NoiseFigure.Value} where missing"), 0.0, 15.0);
    private readonly Option<double?> _eirp = CommonOptions.Number(
        "--eirp",
        "DBM",
        FormattableString.Invariant($"Radiated power of the satellite seen low in the sky, in dBm; {Usual.Eirp.At(Angle.Zero).Value} where missing, give or take {Usual.Eirp.Uncertainty.Value} dB"),
        0.0,
        80.0);
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<Service?> _service = CommonOptions.Service();

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
            Service = parsed.GetValue(_service) ?? Usual.Service,
            Eirp = Usual.Eirp.Raised(new Dbm(parsed.GetValue(_eirp) ?? usualEirp.Value) - usualEirp),
            Dish = Usual.Dish with
            {
                DiameterMetres = parsed.GetValue(_diameter) ?? Usual.Dish.DiameterMetres,
                NoiseFigure = new Decibels(parsed.GetValue(_noiseFigure) ?? Usual.Dish.NoiseFigure.Value),
            },
        };
    }
}
