namespace Cockpit.Tests.Heavens;

/// <summary>Reads the published tables that are copied beside the tests.</summary>
internal static class ReferenceFile
{
    public static string Text(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "reference", name));
}
