namespace Cockpit.Tests.Screen;

/// <summary>Compares text with a file beside the tests. COCKPIT_UPDATE_GOLDENS=1 writes the files instead; review them in the diff.</summary>
internal static class Golden
{
    private const string Update = "COCKPIT_UPDATE_GOLDENS";

    public static void Check(string name, string actual)
    {
        string file = Path.Combine(Folder(), name + ".golden");
        if (string.Equals(Environment.GetEnvironmentVariable(Update), "1", StringComparison.Ordinal))
        {
            File.WriteAllText(file, actual);
            return;
        }

        Assert.True(File.Exists(file), $"There is no golden {name}; make it with {Update}=1 and look at it.");
        string expected = File.ReadAllText(file).ReplaceLineEndings("\n");
        Assert.True(string.Equals(expected, actual, StringComparison.Ordinal), $"{name} differs from its golden ({Update}=1 writes it anew):\n{actual}");
    }

    private static string Folder() => Path.Combine(Repository.Root, "tests", "Cockpit.Tests", "Screen", "Goldens");
}
