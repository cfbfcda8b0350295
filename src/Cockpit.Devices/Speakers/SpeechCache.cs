using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Session.Cues;

namespace Cockpit.Devices.Speakers;

/// <summary>Has every word spoken once, before the pass, and keeps the files: in the field no program has to be started.</summary>
public static class SpeechCache
{
    private const string Source = "--voice words";
    private const long LargestClip = 2_000_000;

    /// <summary>Where the clips are kept: the user's cache folder of the platform.</summary>
    public static string UsualFolder()
    {
        string home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        string root = OperatingSystem.IsWindows() ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)
            : OperatingSystem.IsMacOS() ? Path.Combine(home, "Library", "Caches")
            : Environment.GetEnvironmentVariable("XDG_CACHE_HOME") is { Length: > 0 } cache && Path.IsPathRooted(cache) ? cache
            : Path.Combine(home, ".cache");
        return Path.Combine(root, "cockpit", "voice");
    }

    /// <summary>Brings the clips of the whole vocabulary; what is not in the folder yet is made.</summary>
    /// <param name="folder">The folder; made when it is not there.</param>
    /// <returns>The clips, or one sentence that says why there are none.</returns>
    public static Parsed<SpeechClips> Open(string folder) => Open(folder, SpeechProgram.OfThisPlatform());

    internal static Parsed<SpeechClips> Open(string folder, SpeechProgram[] programs)
    {
        string? trouble = null;
        foreach (SpeechProgram program in programs)
        {
            try
            {
                string own = Path.Combine(folder, program.Name);
                Directory.CreateDirectory(own);
                if (Words(own, program, out string? why) is { } words) { return new SpeechClips(words); }

                trouble ??= why;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                trouble ??= $"the clips cannot be kept in {folder}: {e.Message}";
            }
        }

        return new ParseError(Source, 0, 0, $"{trouble ?? "no speech program is known here"}; {SpeechProgram.Remedy}. The tones stay");
    }

    private static ImmutableDictionary<string, float[]>? Words(string folder, SpeechProgram program, out string? trouble)
    {
        ImmutableDictionary<string, float[]>.Builder words = ImmutableDictionary.CreateBuilder<string, float[]>(StringComparer.Ordinal);
        foreach (string word in SpokenCue.Vocabulary)
        {
            string path = Path.Combine(folder, word.Replace(' ', '-') + ".wav");
            float[]? clip = Read(path);
            if (clip is null && (trouble = Make(program, word, path)) is not null) { return null; }

            if ((clip ?? Read(path)) is not { } samples)
            {
                trouble = $"{program.Name} made no sound of \"{word}\"";
                return null;
            }

            words[word] = samples;
        }

        trouble = null;
        return words.ToImmutable();
    }

    /// <summary>Spoken beside its place and moved there whole: a run that is ended half-way leaves no torn clip.</summary>
    private static string? Make(SpeechProgram program, string word, string path)
    {
        string beside = Path.Combine(Path.GetDirectoryName(path) ?? ".", Path.GetRandomFileName() + ".wav");
        try
        {
            if (program.Speak(word, beside) is { } trouble) { return trouble; }

            File.Move(beside, path, overwrite: true);
            return null;
        }
        finally
        {
            File.Delete(beside);
        }
    }

    private static float[]? Read(string path)
    {
        FileInfo file = new(path);
        return file is { Exists: true, Length: > 0 and < LargestClip } ? SpeechShaper.Read(File.ReadAllBytes(path)) : null;
    }
}
