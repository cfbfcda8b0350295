namespace Cockpit.Tests;

/// <summary>One folder of the source.</summary>
/// <param name="Holds">What stands in it.</param>
/// <param name="Uses">The folders that it may use; <c>Core.*</c> is every folder of that project.</param>
internal sealed record FolderRow(string Holds, params string[] Uses);

/// <summary>The one table of folders. DEVELOPERS.md prints it.</summary>
/// <remarks><c>COCKPIT_UPDATE_GOLDENS=1 dotnet test tests/Cockpit.Tests --filter Layering</c> prints it there again.</remarks>
internal static class FolderTable
{
    public const string Begin = "<!-- folders:begin -->";
    public const string End = "<!-- folders:end -->";

    public static IReadOnlyDictionary<string, FolderRow> Rows { get; } = new SortedDictionary<string, FolderRow>(StringComparer.Ordinal)
    {
        ["Calendars"] = new("passes as iCalendar", "Core.*"),
        ["Checks"] = new("what the checks do: published tables, mutations, simulation, sessions", "Core.*", "Devices.Journal", "Session.*", "Session.Rehearsal", "Settings.Stored"),
        ["Checks.Signal"] = new("the meter against recordings and made signals with truth", "Core.*"),
        ["Checks.Voice"] = new("what a listener understands of the sound alone", "Core.*", "Devices.Speakers", "Session.*"),
        ["Commands"] = new("the words of the command line", "Calendars", "Checks", "Checks.Signal", "Checks.Voice", "Core.*", "Devices.*", "Exports", "Planning", "Reports", "Reports.Pictures", "Screen.*", "Session.*", "Settings", "Settings.Stored", "Wiring"),
        ["Core.Aim"] = new("aim error, holds, the hold plan", "Core.Link", "Core.Passes", "Core.Sky", "Core.Units"),
        ["Core.Chance"] = new("the documented generator of chance"),
        ["Core.Dsp"] = new("IQ to level, offset, kind and frames"),
        ["Core.Dsp.Coding"] = new("the concatenated code of the downlinks"),
        ["Core.Dsp.Frames"] = new("a frame lock for every kind", "Core.Dsp", "Core.Dsp.Qpsk", "Core.Dsp.SplitPhase"),
        ["Core.Dsp.Qpsk"] = new("symbols, marker, frames of coded QPSK; the same, synthetic", "Core.Chance", "Core.Dsp", "Core.Dsp.Coding"),
        ["Core.Dsp.SplitPhase"] = new("bits, frames and picture of the split-phase service", "Core.Dsp"),
        ["Core.Dsp.Synthesis"] = new("made-up samples with truth", "Core.Chance", "Core.Dsp", "Core.Dsp.Coding", "Core.Dsp.Qpsk", "Core.Dsp.SplitPhase"),
        ["Core.Estimate"] = new("the belief about the dish: hypotheses, motion, likelihood", "Core.Aim", "Core.Chance", "Core.Passes", "Core.Sensing", "Core.Sky", "Core.Units"),
        ["Core.Formats"] = new("text of any input: errors, lines, numbers, quoting", "Core.Units"),
        ["Core.Formats.Elements"] = new("TLE and OMM in all forms", "Core.Formats", "Core.Orbit", "Core.Time", "Core.Units"),
        ["Core.Formats.Fixes"] = new("place and time of a receiver of navigation satellites", "Core.Formats", "Core.Units"),
        ["Core.Formats.Options"] = new("what options are written in", "Core.Formats", "Core.Geo", "Core.Units"),
        ["Core.Formats.Recordings"] = new("heads and descriptions of recordings, options of samples", "Core.Dsp", "Core.Formats", "Core.Formats.Options"),
        ["Core.Formats.Sensors"] = new("lines of a sensor on the dish", "Core.Formats", "Core.Formats.Fixes", "Core.Sensing", "Core.Units"),
        ["Core.Formats.Signal"] = new("lines of a receiver", "Core.Formats", "Core.Signal"),
        ["Core.Geo"] = new("places, frames, skyline", "Core.Units"),
        ["Core.Link"] = new("dish, noise, budget, Doppler", "Core.Units"),
        ["Core.Magnetic"] = new("the magnetic field", "Core.Geo", "Core.Units"),
        ["Core.Orbit"] = new("element sets, the propagator's front", "Core.Geo", "Core.Orbit.Theory", "Core.Time", "Core.Units"),
        ["Core.Orbit.Theory"] = new("SGP4 and SDP4 themselves", "Core.Geo", "Core.Time", "Core.Units"),
        ["Core.Passes"] = new("search for passes, cut at a skyline", "Core.Geo", "Core.Sky", "Core.Time", "Core.Units"),
        ["Core.Sensing"] = new("how a device on the dish is turned, and where it points", "Core.Units"),
        ["Core.Signal"] = new("one measurement, one row of the picture"),
        ["Core.Sky"] = new("look angles, sun, moon, bearings, refraction", "Core.Geo", "Core.Magnetic", "Core.Orbit", "Core.Orbit.Theory", "Core.Time", "Core.Units"),
        ["Core.Sound"] = new("tones to samples"),
        ["Core.Steering"] = new("which move, and when, from what is believed", "Core.Aim", "Core.Chance", "Core.Estimate", "Core.Units"),
        ["Core.Time"] = new("Julian dates, sidereal time", "Core.Units"),
        ["Core.Units"] = new("angle, decibels, frequency"),
        ["Core.Verdicts"] = new("whether a pass is worth it", "Core.Aim", "Core.Geo", "Core.Link", "Core.Orbit", "Core.Passes", "Core.Sky", "Core.Time", "Core.Units"),
        ["Devices.Clocks"] = new("session clock, ticks, comparison with a better clock", "Core.Formats.Options", "Core.Signal", "Core.Time", "Session.Bus", "Session.Events"),
        ["Devices.Downloads"] = new("files fetched from a web server, seldom and whole", "Core.Formats", "Devices.Ports"),
        ["Devices.Feeds"] = new("bytes to events, and a receiver tuned", "Core.Formats", "Core.Formats.Fixes", "Core.Formats.Sensors", "Core.Formats.Signal", "Core.Sensing", "Core.Signal", "Core.Units", "Devices.Ports", "Session.Bus", "Session.Events"),
        ["Devices.Feeds.Samples"] = new("the signal itself, measured here", "Core.Dsp", "Core.Dsp.Frames", "Core.Dsp.SplitPhase", "Core.Formats", "Core.Formats.Recordings", "Core.Signal", "Core.Units", "Devices.Feeds", "Devices.Ports", "Devices.Recordings", "Session.Bus", "Session.Events"),
        ["Devices.Files"] = new("what lies under a path, asked without opening it"),
        ["Devices.Journal"] = new("sessions on disk, written, read, played", "Core.Aim", "Core.Formats", "Core.Formats.Elements", "Core.Geo", "Core.Link", "Core.Orbit", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Time", "Core.Units", "Devices.Files", "Session.Bus", "Session.Events", "Session.Review", "Session.State"),
        ["Devices.Outlets"] = new("simulated feeds to the outside", "Core.Chance", "Core.Formats", "Core.Formats.Signal", "Core.Signal", "Devices.Ports"),
        ["Devices.Phone"] = new("the page for a phone on the dish, and what it says", "Core.Formats", "Core.Formats.Sensors", "Core.Sensing", "Core.Sound", "Core.Units", "Devices.Feeds", "Devices.Ports", "Session.Bus", "Session.Events", "Session.Handset"),
        ["Devices.Ports"] = new("TCP, UDP, files, standard input, and their addresses", "Core.Formats", "Devices.Files"),
        ["Devices.Recordings"] = new("recordings on disk, finished or growing, senders of samples, pictures", "Core.Dsp", "Core.Dsp.SplitPhase", "Core.Formats", "Core.Formats.Recordings", "Devices.Files", "Devices.Journal", "Devices.Ports"),
        ["Devices.Speakers"] = new("sound devices, spoken words", "Core.Formats", "Core.Sound", "Session.Bus", "Session.Cues", "Session.Events", "Session.State"),
        ["Exports"] = new("a session as a table for other programs, and as annotations of a recording", "Core.*", "Session.*"),
        ["Planning"] = new("the passes ahead: which are worth it, with what is received of each", "Core.*"),
        ["Reports"] = new("a review as words, JSON, pages", "Core.*", "Planning", "Session.*"),
        ["Reports.Pictures"] = new("a review as PNG files; all that touches the picture library", "Core.*", "Reports", "Session.*"),
        ["Screen.Keys"] = new("the table of keys", "Session.Events"),
        ["Screen.Panels"] = new("what is shown, as plain cells", "Core.Aim", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Units", "Screen.Keys", "Screen.Themes", "Session.Events", "Session.Review", "Session.State"),
        ["Screen.Themes"] = new("roles to colours"),
        ["Screen.Views"] = new("the terminal library", "Screen.Keys", "Screen.Panels", "Screen.Themes", "Session.Events", "Session.State"),
        ["Session.Bus"] = new("one order of events", "Session.Events"),
        ["Session.Computers.Desk"] = new("sound device, journal, switches, clock, place, head", "Core.Aim", "Core.Geo", "Core.Passes", "Core.Sky", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Estimate"] = new("what is known about the dish", "Core.Aim", "Core.Estimate", "Core.Link", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Link", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Feeds"] = new("health of the feeds", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Guidance"] = new("what the hand is asked for", "Core.Aim", "Core.Estimate", "Core.Passes", "Core.Sky", "Core.Steering", "Core.Units", "Session.Computers.Estimate", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Link"] = new("level, expectation, Doppler", "Core.Link", "Core.Passes", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Messages"] = new("the one sentence", "Core.Sensing", "Session.Computers.Feeds", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Picture"] = new("the latest lines of the picture", "Session.Events", "Session.State"),
        ["Session.Computers.Pursuit"] = new("level, estimate, expectation and guidance in their order", "Session.Computers.Estimate", "Session.Computers.Guidance", "Session.Computers.Link", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Readiness"] = new("what has to be right before a pass", "Core.Aim", "Core.Geo", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Sensor"] = new("what a sensor on the dish says, and how it stands with it", "Core.Estimate", "Core.Sensing", "Core.Units", "Session.Computers.Estimate", "Session.Computers.Sky", "Session.Events", "Session.State"),
        ["Session.Computers.Sky"] = new("the pass of the session, and the satellite now", "Core.Aim", "Core.Formats.Elements", "Core.Geo", "Core.Orbit", "Core.Passes", "Core.Sky", "Core.Units", "Session.Events", "Session.State"),
        ["Session.Cues"] = new("what sounds", "Core.Aim", "Core.Passes", "Core.Signal", "Core.Sound", "Core.Units", "Session.Events", "Session.State"),
        ["Session.Events"] = new("every event", "Core.Aim", "Core.Geo", "Core.Link", "Core.Orbit", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Units"),
        ["Session.Handset"] = new("what a phone at the hand shows", "Core.Aim", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sound", "Core.Units", "Session.Cues", "Session.Events", "Session.State"),
        ["Session.Pipeline"] = new("the fold, and its thread", "Core.Estimate", "Core.Geo", "Session.Bus", "Session.Computers.Desk", "Session.Computers.Estimate", "Session.Computers.Feeds", "Session.Computers.Messages", "Session.Computers.Picture", "Session.Computers.Pursuit", "Session.Computers.Readiness", "Session.Computers.Sensor", "Session.Computers.Sky", "Session.Cues", "Session.Events", "Session.State"),
        ["Session.Rehearsal"] = new("simulated pass, dish, hand", "Core.Aim", "Core.Chance", "Core.Estimate", "Core.Formats.Elements", "Core.Geo", "Core.Link", "Core.Orbit", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Desk", "Session.Computers.Estimate", "Session.Computers.Pursuit", "Session.Computers.Sky", "Session.Events", "Session.Pipeline", "Session.Review", "Session.State"),
        ["Session.Review"] = new("afterwards: lines, gaps, causes, hand, advice", "Core.Aim", "Core.Geo", "Core.Link", "Core.Orbit", "Core.Passes", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Link", "Session.Computers.Sky", "Session.Cues", "Session.Events", "Session.Pipeline", "Session.State"),
        ["Session.Sharing"] = new("a session without names and place", "Core.Geo", "Core.Orbit", "Core.Passes", "Core.Signal", "Core.Sky", "Core.Units", "Session.Computers.Sky", "Session.Events"),
        ["Session.State"] = new("the snapshot and its parts", "Core.Aim", "Core.Geo", "Core.Orbit", "Core.Passes", "Core.Sensing", "Core.Signal", "Core.Sky", "Core.Sound", "Core.Time", "Core.Units", "Session.Events"),
        ["Settings"] = new("what a person can set, with the defaults", "Core.*", "Devices.Speakers", "Screen.Views", "Session.Events"),
        ["Settings.Stored"] = new("the settings of a file: schema, reading, adding", "Core.*", "Devices.*", "Settings.Toml"),
        ["Settings.Toml"] = new("TOML with the place of everything in it", "Core.Formats"),
        ["Wiring"] = new("feeds, bus, fold, screen, sound and journal joined to one run", "Core.*", "Devices.*", "Reports", "Screen.*", "Session.*", "Settings"),
    };

    public static string Markdown() => string.Join(
        '\n',
        Rows.Select(row => $"| `{row.Key}` | {row.Value.Holds} | {string.Join(" ", row.Value.Uses)} |").Prepend("| --- | --- | --- |").Prepend("| folder | holds | may use |"));
}
