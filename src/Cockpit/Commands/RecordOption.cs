using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Files;
using Cockpit.Devices.Recordings;
using Cockpit.Planning;
using Cockpit.Session.Computers.Sky;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>--record FOLDER: the samples of a sender are kept, and what that needs is said beforehand.</summary>
internal sealed class RecordOption
{
    private const double Giga = 1e9;

    /// <summary>The option itself.</summary>
    public Option<string> Option { get; } = new("--record")
    {
        HelpName = "FOLDER",
        Description = "Keep the samples of a sender as a SigMF recording in this folder; ends by itself before the disk is full",
    };

    /// <summary>What is wanted.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="samples">Where the samples come from.</param>
    /// <param name="plan">The session; what the recording takes is added to it.</param>
    /// <param name="say">Told what the recording needs.</param>
    /// <param name="wish">Where to; null where nothing is to be kept.</param>
    /// <returns>Why it cannot be; null when all is well.</returns>
    public ParseError? Read(ParseResult parsed, SampleAddress samples, ref SessionPlan plan, TextWriter say, out RecordingWish? wish)
    {
        wish = null;
        if (parsed.GetValue(Option) is not { } folder)
        {
            return null;
        }

        if (samples.IsFile)
        {
            return new ParseError(Option.Name, 0, 0, $"{Quoted.Of(samples.Text)} is a recording already; --record keeps samples that are sent");
        }

        plan = plan with { RecordingFolder = folder };
        wish = new RecordingWish(folder, string.Create(CultureInfo.InvariantCulture, $"{plan.StartUtc:yyyy-MM-dd'T'HHmmss'Z'}"));
        if (samples.Options is { Format: { } format, SampleRate: { } rate } && SkyPlan.For(plan.Settings, plan.StartUtc) is { } sky)
        {
            TimeSpan length = sky.Pass.Los.Utc - plan.StartUtc + RecordingNeed.Around;
            long needed = SampleRecorder.BytesFor(new SampleLayout(format, rate), length);
            plan = plan with { NeededBytes = plan.NeededBytes + needed };
            say.WriteLine(Needs(needed, length, DiskSpace.FreeBeside(Path.Combine(folder, wish.Name))));
        }

        return null;
    }

    private static string Needs(long needed, TimeSpan length, long? free)
    {
        string need = string.Create(CultureInfo.InvariantCulture, $"the recording needs {needed / Giga:0.0} GB for {length.TotalMinutes:0} minutes");
        return free is not { } there ? need
            : string.Create(CultureInfo.InvariantCulture, $"{need}; {there / Giga:0.0} GB are free{(there - needed < SampleRecorder.LeastFree ? ", so it will end before the pass does: make room" : "")}");
    }
}
