namespace Cockpit.Tests;

/// <summary>Where the sources are, for the tests that read goldens, samples and documents.</summary>
internal static class Repository
{
    /// <summary>The folder that holds Cockpit.sln.</summary>
    public static string Root { get; } = Find();

    private static string Find()
    {
        string folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Cockpit.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("the tests run outside the repository");
        }

        return folder;
    }
}
