using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Sharing;

/// <summary>A session that can be given away: every name and text of people and machines is taken out, and unless told otherwise the place too. Pure.</summary>
/// <remarks>
/// Elements and UTC give the place away together with any direction, and no other elements have the same sky at another place. So the directions are
/// kept, as a table a second, and elements, satellite, time and the place itself are not: UTC begins at <see cref="Begin"/>, the station is rounded to
/// <see cref="RoundedKm"/>, the declination to a degree; the sun and the picture, which tell season and region, are left out. The rows stand at
/// the seconds from which the program interpolates anyway, so a replay has the same directions to the last bit.
/// </remarks>
public sealed class SharedSession
{
    /// <summary>UTC at which a shared session begins, but for its part of a second.</summary>
    public static readonly DateTimeOffset Begin = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>To how many km the place is rounded.</summary>
    public const double RoundedKm = 10.0;

    private const double KmPerDegree = 111.2; // a degree of a great circle
    private const double RoundedMetres = 100.0;
    private const double BeforeRiseSeconds = 5400.0;
    private const double AfterSetSeconds = 900.0;

    private readonly bool _exact;
    private readonly TimeSpan _shift;
    private readonly DateTimeOffset _lastUtc;
    private readonly SharedWords _words = new();
    private SessionSettings? _settings;
    private Site _station;

    private SharedSession(ImmutableArray<Envelope> envelopes, bool exact)
    {
        _exact = exact;
        DateTimeOffset start = envelopes[0].Utc;
        _shift = exact ? TimeSpan.Zero : Begin - new DateTimeOffset(start.UtcTicks / TimeSpan.TicksPerSecond * TimeSpan.TicksPerSecond, TimeSpan.Zero);
        _lastUtc = envelopes.Max(envelope => envelope.Utc);
    }

    /// <summary>The session as it can be given away; numbers of the events have gaps where events are left out.</summary>
    /// <param name="envelopes">Its events in their order.</param>
    /// <param name="exact">Whether place, time, satellite and picture stay, and only names and texts go.</param>
    public static ImmutableArray<Envelope> Of(ImmutableArray<Envelope> envelopes, bool exact)
    {
        if (envelopes.IsDefaultOrEmpty)
        {
            return [];
        }

        var shared = new SharedSession(envelopes, exact);
        return [.. envelopes.Select(shared.Shared).OfType<Envelope>()];
    }

    private Envelope? Shared(Envelope envelope) => Shared(envelope.Event, envelope.Utc) is { } happened
        ? envelope with { Utc = envelope.Utc + _shift, Source = _words.Feed(envelope.Source), Event = happened }
        : null;

    /// <summary>An event without its words; null for one that is left out, as every type is that nobody thought about here.</summary>
    private SessionEvent? Shared(SessionEvent happened, DateTimeOffset utc) => happened switch
    {
        SessionOpened e => new SessionOpened(Shared(e.Settings, utc)),
        SignalMeasured e => e with { Feed = _words.Feed(e.Feed), Sample = e.Sample with { Utc = e.Sample.Utc + _shift } },
        PlaceFixed e => Shared(e),
        PictureGrew e => _exact ? e with { Feed = _words.Feed(e.Feed) } : null,
        _ => _words.Without(happened),
    };

    private SessionSettings Shared(SessionSettings settings, DateTimeOffset opened)
    {
        _settings = settings;
        _station = _exact ? settings.Station : Rounded(settings.Station);
        SessionSettings unnamed = settings with
        {
            StationName = SharedWords.Station,
            Choice = null,
            SetUp = null,
            Landmarks = [],
            Feeds = settings.Feeds.IsDefault ? settings.Feeds : [.. settings.Feeds.Select(feed => feed with { Name = _words.Feed(feed.Name) })],
        };
        return _exact ? unnamed : unnamed with
        {
            Station = _station,
            SatelliteName = SharedWords.Satellite,
            Elements = null,
            NotBefore = null,
            Sky = Table(settings, opened),
            MagneticDeclination = settings.MagneticDeclination is { } declination ? Angle.FromDegrees(Math.Round(declination.Degrees)) : null,
        };
    }

    /// <summary>The directions of the pass, from well before it to after it, as far as the session reaches.</summary>
    private TabulatedSky? Table(SessionSettings settings, DateTimeOffset opened)
    {
        if (settings.Sky is { } before)
        {
            return before with
            {
                Epoch = before.Epoch + _shift,
                From = before.From + _shift,
                Pass = Shifted(before.Pass),
            };
        }

        if (settings.Elements is not { } elements || SkyPlan.For(settings, opened) is not { } plan)
        {
            return null;
        }

        DateTimeOffset first = Later(opened, plan.Pass.Aos.Utc.AddSeconds(-BeforeRiseSeconds)).AddSeconds(-3);
        DateTimeOffset last = Earlier(Later(_lastUtc, plan.Pass.Los.Utc).AddSeconds(40), plan.Pass.Los.Utc.AddSeconds(AfterSetSeconds));
        first = Earlier(first, plan.Pass.Aos.Utc.AddSeconds(-3));
        var from = new DateTimeOffset(first.UtcTicks / TimeSpan.TicksPerSecond * TimeSpan.TicksPerSecond, TimeSpan.Zero);
        var track = new SatelliteTrack(new Sgp4(elements), settings.Station);
        LookAngles[] rows =
        [
            .. Enumerable.Range(0, Math.Min(TabulatedSky.MostRows, (int)(last - from).TotalSeconds)).Select(second => track.At(from.AddSeconds(second)))
                .TakeWhile(look => look is not null).OfType<LookAngles>(),
        ];
        return new TabulatedSky(
            elements.EpochUtc + _shift,
            from + _shift,
            Shifted(plan.Pass),
            [.. rows.Select(look => look.Azimuth.Radians)],
            [.. rows.Select(look => look.Elevation.Radians)],
            [.. rows.Select(look => look.RangeKm)],
            [.. rows.Select(look => look.RangeRateKmPerSec)]);
    }

    private Core.Passes.Pass Shifted(Core.Passes.Pass pass) => pass with
    {
        Aos = pass.Aos with { Utc = pass.Aos.Utc + _shift },
        Tca = pass.Tca with { Utc = pass.Tca.Utc + _shift },
        Los = pass.Los with { Utc = pass.Los.Utc + _shift },
    };

    // What a receiver told is kept as far as it is off the station that was set; that says nothing about where that is. Without a station there is nothing to be off.
    private PlaceFixed? Shared(PlaceFixed e)
    {
        PlaceFixed unnamed = e with { Feed = _words.Feed(e.Feed), Utc = e.Utc + _shift };
        if (_exact)
        {
            return unnamed;
        }

        return _settings?.Station is not { } set ? null : unnamed with
        {
            Latitude = _station.Latitude + (e.Latitude - set.Latitude),
            Longitude = (_station.Longitude + (e.Longitude - set.Longitude)).WrappedToHalfTurn(),
            HeightMetres = e.HeightMetres is { } height ? _station.HeightMetres + (height - set.HeightMetres) : null,
        };
    }

    private static Site Rounded(Site station)
    {
        double latitudeStep = RoundedKm / KmPerDegree;
        double latitude = Math.Clamp(Math.Round(station.Latitude.Degrees / latitudeStep) * latitudeStep, -90.0, 90.0);
        double longitudeStep = Math.Min(360.0, latitudeStep / Math.Max(1e-6, Math.Cos(latitude * Math.PI / 180.0)));
        double longitude = Math.Round(station.Longitude.Degrees / longitudeStep) * longitudeStep;
        return new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude).WrappedToHalfTurn(), Math.Round(station.HeightMetres / RoundedMetres) * RoundedMetres);
    }

    private static DateTimeOffset Later(DateTimeOffset one, DateTimeOffset other) => one > other ? one : other;

    private static DateTimeOffset Earlier(DateTimeOffset one, DateTimeOffset other) => one < other ? one : other;
}
