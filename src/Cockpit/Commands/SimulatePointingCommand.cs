using System.CommandLine;
using System.Text;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Units;
using Cockpit.Devices.Outlets;
using Cockpit.Session.Rehearsal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit simulate pointing: a second process that sends what a sensor on the dish would.</summary>
public sealed class SimulatePointingCommand
{
    private readonly SimulatedPassOptions _pass = new();
    private readonly OutletOptions _outlet = new("simulate pointing");
    private readonly Option<double?> _rate = CommonOptions.Number("--rate", "N", "Samples a second; 20 where missing", 0.1, 200);
    private readonly Option<SensorForm?> _form = CommonOptions.Choice<SensorForm>("--form", "How a sample is written; pairs where missing");
    private readonly Option<DishMotion?> _motion = CommonOptions.Choice<DishMotion>("--motion", "How the dish moves: from hold to hold, or not at all; plan where missing");
    private readonly Option<double?> _noise = CommonOptions.Number("--noise", "DEG", "Noise of each axis, one standard deviation; 0.1 where missing", 0, 30);
    private readonly Option<double?> _bias = CommonOptions.Number("--bias", "DEG", "Constant error of its azimuth; 0 where missing", -180, 180);
    private readonly Option<double?> _wander = CommonOptions.Number("--wander", "DEG", "How far its azimuth wanders in a second, growing with the root of the time; 0 where missing", 0, 10);
    private readonly Option<double?> _iron = CommonOptions.Number("--iron", "DEG", "Amplitude of an error that turns with the dish, as of steel on it; 0 where missing", 0, 90);
    private readonly Option<TimeSpan?> _latency = CommonOptions.Value("--latency", "SPAN", "Age of what it tells, like 0.2s; 0 where missing", SpanText.Read);
    private readonly Option<Outage?> _freeze = CommonOptions.Value("--freeze", "EVERY,FOR", "Send nothing again and again, as a phone asleep, like 60s,20s", SimulateSignalCommand.ReadOutage);
    private readonly Option<long?> _seed = CommonOptions.Whole("--seed", "N", "Seed of noise and wander; 1 where missing", 0, long.MaxValue);
    private readonly TimeProvider _clock;

    private SimulatePointingCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no instant was given.</param>
    public static Command Create(TimeProvider clock)
    {
        SimulatePointingCommand it = new(clock);
        Command command = new(
            "pointing",
            """
            Send where the dish points, line by line, as a sensor on it would, its errors included: along the plan of a pass.

            Examples:
              cockpit simulate pointing --to udp://:5011
              cockpit simulate pointing --listen tcp://:5011 --bias 12 --wander 0.1 --freeze 60s,20s
              cockpit simulate pointing --to - --form nmea --rate 2
            """)
        {
            it._rate, it._form, it._motion, it._noise, it._bias, it._wander, it._iron, it._latency, it._freeze, it._seed,
        };
        it._outlet.AddTo(command);
        it._pass.AddTo(command);
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!_pass.Read(parsed, _clock, complaints).Try(out PassToSend? pass, out ParseError? error)
            || !_outlet.Read(parsed).Try(out IOutlet? outlet, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        SensorFlaws flaws = new(
            Degrees(parsed.GetValue(_noise) ?? 0.1), Degrees(parsed.GetValue(_bias)), Degrees(parsed.GetValue(_wander)), Degrees(parsed.GetValue(_iron)), parsed.GetValue(_latency) ?? TimeSpan.Zero);
        SimulatedSensor sensor = new(
            new PlannedDish(pass.Plan, parsed.GetValue(_motion) ?? DishMotion.Plan).At, flaws, (ulong)(parsed.GetValue(_seed) ?? 1));
        SensorForm form = parsed.GetValue(_form) ?? SensorForm.Pairs;
        SenderSettings settings = new() { LinesPerSecond = parsed.GetValue(_rate) ?? 20, Stall = parsed.GetValue(_freeze) ?? default };
        await using LineSender sender = new(outlet, elapsed => Encoding.ASCII.GetBytes(SensorText.Of(sensor.At(pass.At(elapsed)), form)), settings, _clock);
        return await _outlet.SendAsync(sender, pass.Words(outlet.Where), parsed, _clock, cancellation);
    }

    private static Angle Degrees(double? value) => Angle.FromDegrees(value ?? 0.0);
}
