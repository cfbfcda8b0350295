namespace Cockpit.Tests.Orbit;

/// <summary>Published and generated reference values, copied beside the tests.</summary>
internal static class ReferenceFiles
{
    internal static string Text(string folder, string file) =>
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "reference", folder, file));
}
