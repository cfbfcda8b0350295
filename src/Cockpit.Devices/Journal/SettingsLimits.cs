using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Desk;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Puts the usual value where a setting is one that no option takes, so that a wild number does not cost the whole session.</summary>
internal sealed class SettingsLimits
{
    private const int MostFeeds = 32;
    private const int MostSkyline = 10_000;
    private const int MostServiceLetters = 64;
    private const int MostLandmarks = 9;

    private readonly List<string> _remarks = [];

    /// <summary>The settings with what had to be changed.</summary>
    /// <param name="settings">As they were read.</param>
    /// <param name="remark">What was changed, one sentence without its end; null when nothing was.</param>
    internal static SessionSettings Mended(SessionSettings settings, out string? remark)
    {
        SettingsLimits limits = new();
        SessionSettings mended = limits.Mend(settings);
        remark = limits._remarks.Count == 0 ? null : string.Join(", ", limits._remarks);
        return limits._remarks.Count == 0 ? settings : mended;
    }

    private SessionSettings Mend(SessionSettings read)
    {
        SessionSettings usual = new()
        {
            ProgramVersion = read.ProgramVersion,
            Kind = read.Kind,
            StationName = read.StationName,
            Station = read.Station,
            SatelliteName = read.SatelliteName,
            Elements = read.Elements,
        };
        return read with
        {
            DishDiameterMetres = Number("dish_diameter_metres", read.DishDiameterMetres, 0.1, 20, usual.DishDiameterMetres),
            Downlink = new Frequency(Number("downlink_hz", read.Downlink.Hertz, 1, 1e12, usual.Downlink.Hertz)),
            MinimumElevation = Angle.FromRadians(Number("minimum_elevation_rad", read.MinimumElevation.Radians, -1.57, 1.57, usual.MinimumElevation.Radians)),
            AllowedLoss = new Decibels(Number("allowed_loss_db", read.AllowedLoss.Value, 0.01, 12, usual.AllowedLoss.Value)),
            CueLead = TimeSpan.FromSeconds(Number("cue_lead_s", read.CueLead.TotalSeconds, 0, 60, usual.CueLead.TotalSeconds)),
            VolumeDb = Number("volume_db", read.VolumeDb, DeskComputer.SoftestDb, DeskComputer.LoudestDb, usual.VolumeDb),
            Speed = Number("speed", read.Speed, 0.01, 1000, usual.Speed),
            MagneticDeclination = Declination(read.MagneticDeclination),
            SetUpError = SetUp(read.SetUpError),
            Hand = Hand(read.Hand),
            Skyline = Skyline(read.Skyline),
            Landmarks = Landmarks(read.Landmarks),
            Sky = Sky(read.Sky),
            NotBefore = NotBefore(read.NotBefore),
            Choice = Choice(read.Choice),
            SetUp = Facts(read.SetUp),
            Service = Service(read.Service, usual.Service),
            Feeds = Feeds(read.Feeds),
        };
    }

    // Written so that NaN is outside.
    private double Number(string name, double value, double least, double most, double usual)
    {
        if (value >= least && value <= most)
        {
            return value;
        }

        _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"{name} is {value} and taken as {usual:0.####}"));
        return usual;
    }

    private ImmutableArray<HorizonPoint> Skyline(ImmutableArray<HorizonPoint> read)
    {
        if (read.IsDefaultOrEmpty)
        {
            return [];
        }

        try
        {
            _ = new HorizonMask(read.Take(MostSkyline + 1));
            if (read.Length <= MostSkyline)
            {
                return read;
            }

            _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"the skyline has {read.Length} points and is not used"));
        }
        catch (ArgumentException wrong)
        {
            _remarks.Add($"the skyline is not used: {wrong.Message}");
        }

        return [];
    }

    private ImmutableArray<Landmark> Landmarks(ImmutableArray<Landmark> read)
    {
        // JSON can hold a null where the type allows none; a place out of bounds gives a wild bearing, not a harm.
        if (read.IsDefaultOrEmpty || (read.Length <= MostLandmarks && read.All(landmark => landmark is { Name: not null } && IsPlace(landmark.Site))))
        {
            return read.IsDefault ? [] : read;
        }

        _remarks.Add("the landmarks are not used: there are too many, or one has no name or no place");
        return [];
    }

    private static bool IsPlace(Site site) =>
        Math.Abs(site.Latitude.Degrees) <= 90.0 && Math.Abs(site.Longitude.Degrees) <= 360.0 && Math.Abs(site.HeightMetres) <= 100_000.0;

    private TabulatedSky? Sky(TabulatedSky? read)
    {
        if (read is null || read.IsUsable())
        {
            return read;
        }

        _remarks.Add("the table of directions is not used: its columns are not as long as each other, or hold what cannot be");
        return null;
    }

    private DateTimeOffset? NotBefore(DateTimeOffset? read)
    {
        if (read is not { Year: < 1957 or > 2200 })
        {
            return read;
        }

        _remarks.Add("the search for the pass begins in a year without satellites and is taken as from the beginning");
        return null;
    }

    private SetUpFacts? Facts(SetUpFacts? read)
    {
        if (read is not { Missing.IsDefault: true })
        {
            return read;
        }

        _remarks.Add("what nobody told about the set-up is missing");
        return null;
    }

    private PassChoice? Choice(PassChoice? read)
    {
        // JSON can hold a null where the type allows none.
        if (read is null || (!read.Offers.IsDefaultOrEmpty && read.Offers.All(offer => offer is not null) && read.Taken >= 0 && read.Taken < read.Offers.Length))
        {
            return read;
        }

        _remarks.Add("the choice of the pass is not used: it names none of those that were offered");
        return null;
    }

    private string Service(string? read, string usual)
    {
        if (read is { Length: > 0 and <= MostServiceLetters })
        {
            return read;
        }

        _remarks.Add($"service has no usable name and is taken as {usual}");
        return usual;
    }

    private SetUpError? SetUp(SetUpError? read)
    {
        if (read is not { } error || (error.Azimuth.Degrees is >= 0.1 and <= 90.0 && error.Elevation.Degrees is >= 0.1 and <= 90.0))
        {
            return read;
        }

        _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"set_up_error is {error.Azimuth.Radians} and {error.Elevation.Radians} and not used"));
        return null;
    }

    private HandSettings? Hand(HandSettings? read)
    {
        if (read is not { } hand || (hand.ReactionSeconds is null or (>= 0.05 and <= 10.0) && hand.Amount is null or (>= 0.2 and <= 5.0)))
        {
            return read;
        }

        _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"hand is {hand.ReactionSeconds} and {hand.Amount} and not used"));
        return null;
    }

    private Angle? Declination(Angle? read)
    {
        if (read is not { } declination || Math.Abs(declination.Radians) <= Math.PI)
        {
            return read;
        }

        _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"magnetic_declination_rad is {declination.Radians} and not used"));
        return null;
    }

    private ImmutableArray<FeedSettings> Feeds(ImmutableArray<FeedSettings> read)
    {
        if (read.IsDefault)
        {
            return [];
        }

        // JSON can hold a null where the type allows none.
        ImmutableArray<FeedSettings> named = [.. read.Where(feed => feed is not null).Take(MostFeeds)];
        if (named.Length == read.Length)
        {
            return read;
        }

        _remarks.Add(string.Create(CultureInfo.InvariantCulture, $"of {read.Length} feeds {named.Length} are taken"));
        return named;
    }
}
