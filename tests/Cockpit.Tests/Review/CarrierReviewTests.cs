using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Tests.Review;

public sealed class CarrierReviewTests
{
    private static ClockNow Clock(double behind, double doubt) => new("time.example", TimeSpan.FromSeconds(behind), TimeSpan.FromSeconds(doubt));

    [Fact]
    public void A_slip_that_is_small_or_not_sure_fits()
    {
        Assert.Equal(CarrierVerdict.Fits, CarrierReview.Of(new DopplerSlip(0.4, 0.05), 3.0, null).Verdict);
        Assert.Equal(CarrierVerdict.Fits, CarrierReview.Of(new DopplerSlip(1.2, 0.5), 3.0, null).Verdict);
    }

    [Fact]
    public void A_clock_that_is_behind_by_as_much_is_to_blame_and_one_that_is_right_is_not()
    {
        Assert.Equal(CarrierVerdict.Clock, CarrierReview.Of(new DopplerSlip(2.0, 0.1), 3.0, Clock(2.1, 0.05)).Verdict);
        Assert.Equal(CarrierVerdict.Elements, CarrierReview.Of(new DopplerSlip(2.0, 0.1), 3.0, Clock(0.02, 0.05)).Verdict);
        Assert.Equal(CarrierVerdict.Elements, CarrierReview.Of(new DopplerSlip(-2.0, 0.1), 3.0, Clock(2.0, 0.05)).Verdict);
    }

    [Fact]
    public void Without_a_good_comparison_it_is_one_of_both()
    {
        Assert.Equal(CarrierVerdict.Either, CarrierReview.Of(new DopplerSlip(2.0, 0.1), 3.0, null).Verdict);
        Assert.Equal(CarrierVerdict.Either, CarrierReview.Of(new DopplerSlip(2.0, 0.1), null, Clock(0.1, 3.0)).Verdict);
    }
}
