using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Files;
using Cockpit.Devices.Recordings;
using Cockpit.Planning;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say what a recording will need: where the samples come from, and where they are kept.</summary>
internal sealed class RecordingPlace
{
    private readonly Option<string?> _signal = new("--signal")
    {
        HelpName = "ADDRESS", Description = "Where the samples will come from; ?format=ci16&rate=3000000 behind it tells what a recording needs. Nothing is opened",
    };

    private readonly Option<string?> _record = new("--record") { HelpName = "FOLDER", Description = "Where recordings are kept, to see what is free there; this folder where missing" };

    /// <summary>Gives the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_signal);
        command.Options.Add(_record);
    }

    /// <summary>What is known.</summary>
    /// <param name="parsed">The command line.</param>
    /// <returns>The need and the folder; or one sentence where the address cannot be understood.</returns>
    public Parsed<(RecordingNeed Need, string Folder)> Read(ParseResult parsed)
    {
        double? bytes = null;
        string? folder = parsed.GetValue(_record);
        if (parsed.GetValue(_signal) is { } text && SampleAddress.IsOne(text))
        {
            if (!SampleAddress.Read(text, _signal.Name).Try(out SampleAddress? address, out ParseError? error))
            {
                return error;
            }

            bytes = address.Options is { Format: { } format, SampleRate: { } rate } ? new SampleLayout(format, rate).BytesPerSecond : null;
            folder ??= address.IsFile ? Path.GetDirectoryName(Path.GetFullPath(address.Text["file:".Length..])) : null;
        }

        folder ??= Directory.GetCurrentDirectory();
        return (new RecordingNeed(bytes, DiskSpace.FreeBeside(Path.Combine(folder, "recording")), SampleRecorder.LeastFree), folder);
    }
}
