using Cockpit.Core.Chance;
using Cockpit.Core.Link;

namespace Cockpit.Tests.Link;

public sealed class SlipFitTests
{
    // A pass whose shift falls from +35 to -35 kHz as an arctangent, steepest at 300 s: 290 Hz/s there.
    private const double SwingHz = 35e3;
    private const double Width = 77.0;

    [Theory]
    [InlineData(2.5, 0.0, true)]
    [InlineData(-3.2, 0.8, true)]
    [InlineData(0.0, -0.5, false)]
    public void The_slip_of_a_steep_pass_comes_back_whatever_the_oscillator_is_wrong_by(double slip, double drift, bool standsStill)
    {
        Slip fit = SlipFit.Of(Points(150, 400, t => (standsStill ? Shift(t + slip) : Shift(t + slip) - Shift(t)) - 21e3 + (drift * t), noise: 8));
        Assert.Equal(!standsStill, fit.Follows);
        Assert.NotNull(fit.SlipSeconds);
        Assert.InRange(fit.SlipSeconds.Value, slip - (3 * fit.Sd) - 0.02, slip + (3 * fit.Sd) + 0.02);
        Assert.InRange(fit.Sd, 1e-3, 0.2);
    }

    [Fact]
    public void Where_the_shift_falls_evenly_no_slip_is_told() =>
        Assert.Null(SlipFit.Of(Points(0, 60, t => Shift(t + 2) + 9e3, noise: 8)).SlipSeconds);

    [Fact]
    public void A_drift_alone_is_no_slip()
    {
        Slip fit = SlipFit.Of(Points(120, 260, t => Shift(t) + (2.0 * t), noise: 8));
        Assert.True(fit.SlipSeconds is null || Math.Abs(fit.SlipSeconds.Value) < 2.5 * fit.Sd, $"{fit}");
    }

    [Fact]
    public void Wrong_lines_now_and_then_do_not_pull()
    {
        SlipPoint[] points = Points(150, 400, t => Shift(t + 2.5), noise: 8);
        for (int k = 7; k < points.Length; k += 12)
        {
            points[k] = points[k] with { OffsetHz = points[k].OffsetHz + 33e3 };
        }

        Assert.Equal(2.5, SlipFit.Of(points).SlipSeconds!.Value, 0.1);
    }

    [Fact]
    public void The_stated_doubt_is_that_of_many_passes()
    {
        double square = 0;
        Slip fit = default;
        for (ulong seed = 1; seed <= 40; seed++)
        {
            fit = SlipFit.Of(Points(200, 330, t => Shift(t + 1), noise: 60, seed));
            double error = fit.SlipSeconds!.Value - 1;
            square += error * error / 40;
        }

        // Points are taken as hanging together over five seconds, which these do not: the truth is better by the root of five.
        Assert.InRange(Math.Sqrt(square), 0.3 * fit.Sd, 0.7 * fit.Sd);
    }

    private static double Shift(double t) => -SwingHz * 2 / Math.PI * Math.Atan((t - 300) / Width);

    private static SlipPoint[] Points(int from, int to, Func<double, double> offset, double noise, ulong seed = 1)
    {
        Xoshiro256 chance = new(seed);
        SlipPoint[] points = new SlipPoint[to - from];
        for (int k = 0; k < points.Length; k++)
        {
            double t = from + k;
            points[k] = new SlipPoint(t, offset(t) + (noise * chance.NextNormal()), Shift(t), Shift(t + 0.5) - Shift(t - 0.5));
        }

        return points;
    }
}
