using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Core.Link;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Phone;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Computers.Desk;
using static Cockpit.Settings.Stored.SettingChecks;

namespace Cockpit.Settings.Stored;

/// <summary>Everything that the settings may hold; reading, checking, showing and the comments of a new file all come from here.</summary>
public static class SettingSchema
{
    /// <summary>The version that this program writes and knows.</summary>
    public const int Version = 1;

    private const SettingKind Text = SettingKind.Text;
    private const SettingKind Number = SettingKind.Number;

    private static readonly SettingTable Places = new(
        "places",
        Many: true,
        "Where you stand.",
        [
            new("name", Text, "what you call it", Anything, Required: true),
            new("latitude_deg", Number, "north positive", Between(-90, 90, "degrees"), Required: true),
            new("longitude_deg", Number, "east positive", Between(-180, 180, "degrees"), Required: true),
            new("altitude_m", Number, "above the WGS 84 ellipsoid", Between(-1000, 20000, "metres")),
            new("time_zone", Text, "for local time, like \"Europe/Berlin\"; the computer's where missing", Zone, "--time-zone"),
            new("landmarks", Text, $"what you see and the map has, to set a sensor by: \"{LandmarksText.Form}\"", Reads(LandmarksText.Read), "--landmarks"),
            new("skyline", Text, "what hides the sky: \"AZ:EL,AZ:EL,...\" or a file", Anything, "--horizon", IsPath: true),
        ],
        []);

    private static readonly SettingTable Dishes = new(
        "dishes",
        Many: true,
        "What you point.",
        [
            new("name", Text, "what you call it", Anything, Required: true),
            new("diameter_m", Number, "of the reflector", Between(0.2, 10, "metres"), "--dish", Required: true),
            new("noise_figure_db", Number, "of the first amplifier", Between(0, 20, "dB"), "--noise-figure"),
            new("mount", Text, "in which axes the hand moves it: pan-tilt or free", OneOf("pan-tilt", "free"), "--mount"),
            new("over_the_top", SettingKind.Switch, "the tilt of the head goes beyond 90 degrees", _ => null, "--over-the-top"),
            new("sun", Text, "where the satellite passes the sun: skip leads the dish around it, fly does not", OneOf("skip", "fly"), "--sun"),
            new("set_up_error_deg", Text, "how far it may stand off at set-up, azimuth and elevation: \"2,1\"", Pair, "--set-up-error"),
            new("scale_marks_deg", Number, "between two marks of the scale of the head", Between(0.1, 90, "degrees")),
            new("handle_m", Number, "from the axis to the hand", Between(0.05, 5, "metres")),
        ],
        []);

    private static readonly SettingTable Downlinks = new(
        "downlinks",
        Many: true,
        "What it sends.",
        [
            new("frequency_mhz", Number, "the carrier", Between(100, 30000, "MHz"), Required: true),
            new("service", Text, string.Join(", ", Service.All.Select(service => service.Name)), OneOf([.. Service.All.Select(service => service.Name)]), "--service"),
            new("symbol_rate", Number, "a second", Between(1, 1e9, "a second")),
            new("note", Text, "for you", Anything),
        ],
        []);

    private static readonly SettingTable Favourites = new(
        "favourites",
        Many: true,
        "The satellites that you follow.",
        [
            new("satellite", SettingKind.TextOrNumber, "name or catalogue number", Anything, Required: true),
            new("note", Text, "for you", Anything),
        ],
        [Downlinks]);

    private static readonly SettingTable Receiver = new(
        "receiver",
        Many: false,
        "What the laptop listens to.",
        [
            new("signal", Text, $"where the level comes from: {LineAddress.Forms}", Anything, "--signal"),
            new("iq_format", Text, "of a sample, where signal sends samples: cu8, ci8, ci16, ci24, ci32 or cf32", Reads(SampleFormatText.Read)),
            new("sample_rate", Number, "of the samples, a second", Between(1000, 1e8, "a second")),
            new("center_mhz", Number, "where the receiver is tuned to, where it does not follow --tune", Between(1, 30000, "MHz")),
            new("tune", Text, "a rig server that is tuned to the Doppler: rig://HOST:PORT", Reads(RigAddress.Read), "--tune"),
            new("record", Text, "folder for the samples", Anything, "--record", IsPath: true),
            new("clock", Text, $"a time server: {TimeServerText.Form}", Reads(TimeServerText.Read), "--clock"),
            new("pointing", Text, "a sensor on the dish that says where it points", Anything, "--pointing"),
            new("phone", Text, "a page for a phone on the dish: \"auto\", or an address of this computer", Reads(PhoneAddress.Read), "--phone"),
            new("place", Text, "a receiver of navigation satellites, like gpsd://", Anything, "--place"),
        ],
        []);

    private static readonly SettingTable Elements = new(
        "elements",
        Many: false,
        "Where the satellites are.",
        [
            new("file", Text, "element sets, TLE or OMM", Anything, "--elements", IsPath: true),
            new("address", Text, "where newer ones are fetched from", WebAddress),
        ],
        []);

    private static readonly SettingTable Screen = new(
        "screen",
        Many: false,
        "What you see.",
        [
            new("theme", Text, "dusk, night, day, mono, or a file of the themes folder", Anything, "--theme"),
            new("drawing", Text, "what the screen is drawn with: auto, unicode or ascii", OneOf("auto", "unicode", "ascii"), "--drawing"),
            new("north", Text, "which azimuth stands large at set-up: true or compass", OneOf("true", "compass"), "--north"),
        ],
        []);

    private static readonly SettingTable Sound = new(
        "sound",
        Many: false,
        "What you hear.",
        [
            new("device", Text, SoundChoice.Grammar, Reads(SoundChoice.Read), "--sound"),
            new("volume_db", Number, "against the usual loudness; keys + and - change it", Between(DeskComputer.SoftestDb, DeskComputer.LoudestDb, "dB"), "--volume"),
            new("voice", Text, "tones or words", OneOf("tones", "words"), "--voice"),
        ],
        []);

    private static readonly SettingTable Hand = new(
        "hand", Many: false, "Who steers.", [new("skill", Text, "learnt (from your passes), novice or practised; where missing learnt, once ten passes tell enough", OneOf("learnt", "novice", "practised"), "--skill")], []);

    private static readonly SettingTable Sessions = new(
        "sessions", Many: false, "What is kept.", [new("folder", Text, "of all sessions", Anything, "--sessions", IsPath: true)], []);

    private static readonly SettingTable Instrument = new(
        "instrument",
        Many: false,
        "What looks down.",
        [new("half_angle_deg", Number, "its scan to either side of the vertical", Between(0.1, 89.9, "degrees"), "--half-angle")],
        []);

    /// <summary>The whole of it.</summary>
    public static SettingTable Root { get; } = new(
        "",
        Many: false,
        "",
        [
            new("version", Number, "of this file's form", Between(1, 1000, "")),
            new("place", Text, "the place in use, where there are several", Anything),
            new("dish", Text, "the dish in use, where there are several", Anything),
        ],
        [Places, Dishes, Favourites, Receiver, Elements, Screen, Sound, Hand, Sessions, Instrument]);

    private static string? Pair(string text)
    {
        string[] parts = text.Split(',');
        return parts.Length == 2 && parts.All(part => NumberText.TryRead(part, out double degrees) && degrees is >= 0.1 and <= 90.0)
            ? null
            : $"{Quoted.Of(text)} is not two errors from 0.1 to 90 degrees; write them like \"2,1\"";
    }
}
