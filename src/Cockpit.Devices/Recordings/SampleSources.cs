using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>The sources of samples behind the addresses that people write.</summary>
public static class SampleSources
{
    private const string File = "file:";

    /// <summary>Opens an address.</summary>
    /// <param name="address">A file with or without <c>file:</c>, then perhaps ? and options of the samples.</param>
    /// <param name="follow">Whether to go on when the samples end for now.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="say">Told in a sentence what happens to the source.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    public static Parsed<ISampleSource> Open(string address, bool follow, TimeProvider time, Action<string> say, string source)
    {
        if (!SampleOptions.Split(address, source).Try(out (string Address, SampleOptions Options) parts, out ParseError? error))
        {
            return error;
        }

        string path = parts.Address.StartsWith(File, StringComparison.Ordinal) ? parts.Address[File.Length..] : parts.Address;
        return FileSampleSource.Open(path, parts.Options, follow || parts.Options.FromEnd, time, say, source).Try(out FileSampleSource? file, out error) ? file : error;
    }
}
