using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Tests.Journal;

namespace Cockpit.Tests.Computers;

/// <summary>The place that a receiver of navigation satellites tells, against the station of the session.</summary>
public sealed class PlaceTests
{
    private static readonly SessionSettings Settings = EventSamples.All.OfType<SessionOpened>().Single().Settings with { Feeds = [], Elements = null, Speed = 1 };
    private readonly Fold _fold = new();
    private readonly DateTimeOffset _start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private long _sequence;

    public PlaceTests() => Step(new SessionOpened(Settings));

    [Fact]
    public void A_place_more_than_200_m_away_is_a_caution_with_the_station_to_set_once_it_lasts()
    {
        Snapshot snapshot = Step(At(1500));
        Assert.Equal(1500, snapshot.Desk.Place!.DistanceMetres, 5.0);
        Assert.False(snapshot.Desk.Place.IsFar);
        for (int k = 0; k < 4; k++)
        {
            snapshot = Step(At(1500));
        }

        Assert.Equal(MessageWeight.Caution, snapshot.Message!.Weight);
        Assert.Matches("^the station is 1\\.5 km from where the receiver says: start again with --station -?[0-9]+\\.[0-9]{5},-?[0-9]+\\.[0-9]{5},521$", snapshot.Message.Text);
        Assert.StartsWith("the station is 300 m from", Step(At(300)).Message!.Text, StringComparison.Ordinal);
        Assert.False(Step(At(150)).Desk.Place!.IsFar);
    }

    [Fact]
    public void Places_that_jump_or_are_in_doubt_are_none()
    {
        foreach (double metres in new double[] { 900, 900, 900, 900, 20, 900, 900, 900, 900 })
        {
            Assert.False(Step(At(metres)).Desk.Place!.IsFar);
        }

        for (int k = 0; k < 10; k++)
        {
            Assert.False(Step(At(900) with { DoubtMetres = 1000 }).Desk.Place!.IsFar);
        }
    }

    // North of the station by so much; a degree of latitude is about 111 km.
    private static PlaceFixed At(double metres)
    {
        Site station = Settings.Station;
        double degrees = metres / Geodesic.Between(station, station with { Latitude = station.Latitude + Angle.FromDegrees(0.01) }).DistanceMetres * 0.01;
        return new PlaceFixed("place", station.Latitude + Angle.FromDegrees(degrees), station.Longitude, 521.2, 4, null);
    }

    private Snapshot Step(SessionEvent happened)
    {
        TimeSpan elapsed = TimeSpan.FromSeconds(_sequence);
        return _fold.Step(new Envelope(++_sequence, elapsed, _start + elapsed, Sources.Place, happened));
    }
}
