using ArchUnitNET.Domain;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnit;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Cockpit.Tests;

/// <summary>Every folder of the source has one row in <see cref="FolderTable"/>, uses only what its row allows, and no row leads back to itself.</summary>
public sealed class LayeringTests
{
    private static readonly Architecture Everything = new ArchLoader().LoadAssemblies(
        typeof(Cockpit.Core.Units.Angle).Assembly,
        typeof(Cockpit.Session.Events.Envelope).Assembly,
        typeof(Cockpit.Devices.Clocks.SessionClock).Assembly,
        typeof(Cockpit.Screen.Themes.Role).Assembly,
        typeof(Cockpit.Commands.CommandRoot).Assembly).Build();

    private static readonly ILookup<string, string> Uses = Everything.Types
        .Where(type => IsOurs(type))
        .SelectMany(type => type.Dependencies.Where(use => IsOurs(use.Target)).Select(use => (From: FolderOf(type), To: FolderOf(use.Target))))
        .Where(use => use.From != use.To)
        .Distinct()
        .ToLookup(use => use.From, use => use.To);

    [Fact]
    public void Every_folder_has_a_row_in_the_table()
    {
        string[] folders = [.. Everything.Types.Where(IsOurs).Select(FolderOf).Distinct().Order(StringComparer.Ordinal)];
        Assert.True(folders.Length > 30, "the source has folders");
        Assert.Equal(folders, FolderTable.Rows.Keys.Order(StringComparer.Ordinal));
    }

    // One name, one thing: whoever reads it in one folder must not have to ask which of two is meant.
    [Fact]
    public void No_type_of_ours_has_the_name_of_another()
    {
        string[] names = [.. Everything.Types.Where(type => IsOurs(type) && !type.IsNested).Select(type => type.Name.Split('`')[0])];
        Assert.True(names.Length > 400, "the source has types");
        Assert.Empty(names.GroupBy(name => name, StringComparer.Ordinal).Where(same => same.Count() > 1).Select(same => same.Key));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_uses_only_what_its_row_allows(string folder)
    {
        string[] beyond = [.. Uses[folder].Where(used => !Allows(folder, used)).Order(StringComparer.Ordinal)];
        Assert.True(beyond.Length == 0, $"{folder} uses {string.Join(", ", beyond)}, which its row does not allow: {Culprits(folder, beyond)}");
    }

    [Fact]
    public void No_folder_leads_back_to_itself()
    {
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (string folder in FolderTable.Rows.Keys)
        {
            Walk(folder, [], done);
        }
    }

    [Fact]
    public void The_developers_page_prints_the_same_table()
    {
        string path = Path.Combine(Repository.Root, "DEVELOPERS.md");
        string page = File.ReadAllText(path);
        int from = page.IndexOf(FolderTable.Begin, StringComparison.Ordinal) + FolderTable.Begin.Length;
        int to = page.IndexOf(FolderTable.End, StringComparison.Ordinal);
        Assert.True(from >= FolderTable.Begin.Length && to > from, "DEVELOPERS.md holds the folder table between its marks");
        if (Environment.GetEnvironmentVariable("COCKPIT_UPDATE_GOLDENS") is "1")
        {
            page = $"{page[..from]}\n{FolderTable.Markdown()}\n{page[to..]}";
            File.WriteAllText(path, page);
            to = page.IndexOf(FolderTable.End, StringComparison.Ordinal);
        }

        Assert.Equal(FolderTable.Markdown(), page[from..to].Trim());
    }

    [Fact]
    public void Screen_Panels_knows_no_terminal() => NotUse("Screen.Panels", @"^Terminal\.Gui");

    [Fact]
    public void Core_knows_no_reactive_library_files_sockets_threads_or_terminal() =>
        NotUse("Core", @"^(System\.Reactive|System\.IO\.(File|Directory|Path|FileStream)$|System\.Net\.|System\.Threading\.Thread$|System\.Console$|Terminal\.Gui)");

    [Fact]
    public void Session_knows_no_files_sockets_or_terminal() =>
        NotUse("Session", @"^(System\.IO\.(File|Directory|Path|FileStream)$|System\.Net\.|System\.Console$|Terminal\.Gui)");

    [Fact]
    public void Devices_knows_no_terminal_library() => NotUse("Devices", @"^(Terminal\.Gui|Cockpit\.Screen)");

    [Fact]
    public void Screen_knows_no_devices() => NotUse("Screen", @"^(Cockpit\.Devices|System\.Net\.)");

    public static TheoryData<string> Folders() => [.. FolderTable.Rows.Keys];

    private static void Walk(string folder, IReadOnlyList<string> path, HashSet<string> done)
    {
        Assert.False(path.Contains(folder), $"folders lead back to themselves: {string.Join(" -> ", path.Append(folder))}");
        if (done.Contains(folder))
        {
            return;
        }

        foreach (string used in Uses[folder])
        {
            Walk(used, [.. path, folder], done);
        }

        done.Add(folder);
    }

    private static string Culprits(string folder, string[] beyond) => string.Join(
        ", ",
        Everything.Types.Where(type => IsOurs(type) && FolderOf(type) == folder)
            .SelectMany(type => type.Dependencies.Where(use => IsOurs(use.Target) && beyond.Contains(FolderOf(use.Target))).Select(use => $"{type.Name} -> {use.Target.Name}"))
            .Distinct()
            .Take(5));

    private static bool Allows(string folder, string used) => FolderTable.Rows[folder].Uses.Any(allowed => Names(allowed, used));

    /// <summary>"Core.*" in a row stands for every folder of that project.</summary>
    private static bool Names(string allowed, string used) =>
        allowed.EndsWith(".*", StringComparison.Ordinal) ? used.StartsWith(allowed[..^1], StringComparison.Ordinal) : allowed == used;

    /// <summary>A type parameter of generated code belongs to no folder: two generators name theirs alike.</summary>
    private static bool IsOurs(IType type) =>
        type is not GenericParameter && type.Namespace?.FullName is { } name && (name == "Cockpit" || name.StartsWith("Cockpit.", StringComparison.Ordinal));

    private static string FolderOf(IType type) =>
        type.Namespace.FullName is "Cockpit" ? "Program" : type.Namespace.FullName["Cockpit.".Length..];

    private static void NotUse(string folder, string forbidden) =>
        Types().That().ResideInNamespaceMatching($@"^Cockpit\.{folder.Replace(".", @"\.", StringComparison.Ordinal)}(\.|$)")
            .Should().NotDependOnAnyTypesThat().HaveFullNameMatching(forbidden)
            .Check(Everything);
}
