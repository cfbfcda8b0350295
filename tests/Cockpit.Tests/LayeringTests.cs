using ArchUnitNET.Domain;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnit;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Cockpit.Tests;

/// <summary>One test per line of the folder table in DEVELOPERS.md. A rule that matches no type fails by itself.</summary>
public sealed class LayeringTests
{
    private static readonly Architecture Everything = new ArchLoader().LoadAssemblies(
        typeof(Cockpit.Core.Units.Angle).Assembly,
        typeof(Cockpit.Session.Events.Envelope).Assembly,
        typeof(Cockpit.Devices.Clocks.SessionClock).Assembly,
        typeof(Cockpit.Screen.Themes.Role).Assembly).Build();

    [Fact]
    public void Core_Units_uses_nothing_of_ours() => May("Core.Units");

    [Fact]
    public void Core_Time_uses_Units() => May("Core.Time", "Core.Units");

    [Fact]
    public void Core_Geo_uses_Units_and_Time() => May("Core.Geo", "Core.Units", "Core.Time");

    [Fact]
    public void Core_Sound_uses_Units() => May("Core.Sound", "Core.Units");

    [Fact]
    public void Core_Signal_uses_Units_and_Time() => May("Core.Signal", "Core.Units", "Core.Time");

    [Fact]
    public void Core_Dsp_uses_Units() => May("Core.Dsp", "Core.Units");

    [Fact]
    public void Core_Link_uses_Units() => May("Core.Link", "Core.Units");

    [Fact]
    public void Core_Magnetic_uses_Units_and_Geo() => May("Core.Magnetic", "Core.Units", "Core.Geo");

    [Fact]
    public void Core_Sky_uses_Units_Time_Geo_Magnetic_and_the_look_angles_of_Aim() =>
        May("Core.Sky", "Core.Units", "Core.Time", "Core.Geo", "Core.Magnetic", "Core.Aim");

    [Fact]
    public void Core_Passes_uses_what_a_verdict_is_made_of() =>
        May("Core.Passes", "Core.Units", "Core.Time", "Core.Geo", "Core.Orbit", "Core.Aim", "Core.Link", "Core.Sky");

    [Fact]
    public void Session_Events_uses_Core() => May("Session.Events", "Core");

    [Fact]
    public void Session_Bus_uses_Events() => May("Session.Bus", "Session.Events", "Core");

    [Fact]
    public void Screen_Panels_knows_no_terminal() => NotUse("Screen.Panels", @"^Terminal\.Gui");

    [Fact]
    public void Core_knows_no_reactive_library_files_sockets_threads_or_terminal() =>
        NotUse("Core", @"^(System\.Reactive|System\.IO\.(File|Directory|Path|FileStream)$|System\.Net\.|System\.Threading\.Thread$|System\.Console$|Terminal\.Gui)");

    [Fact]
    public void Session_knows_no_files_sockets_or_terminal() =>
        NotUse("Session", @"^(System\.IO\.(File|Directory|Path|FileStream)$|System\.Net\.|System\.Console$|Terminal\.Gui)");

    [Fact]
    public void Devices_Ports_uses_nothing_of_ours() => May("Devices.Ports");

    [Fact]
    public void Devices_Feeds_uses_Ports_and_the_bus() => May("Devices.Feeds", "Devices.Ports", "Session.Events", "Session.Bus", "Core");

    [Fact]
    public void Devices_Journal_uses_the_bus() => May("Devices.Journal", "Session.Events", "Session.Bus", "Core");

    [Fact]
    public void Devices_Simulators_uses_Ports_and_the_addresses_of_Feeds() => May("Devices.Simulators", "Devices.Ports", "Devices.Feeds", "Core");

    [Fact]
    public void Devices_knows_no_terminal_library() => NotUse("Devices", @"^(Terminal\.Gui|Cockpit\.Screen)");

    [Fact]
    public void Screen_knows_no_devices() => NotUse("Screen", @"^(Cockpit\.Devices|System\.Net\.)");

    private static void May(string folder, params string[] others)
    {
        string allowed = string.Join('|', others.Append(folder).Select(n => n.Replace(".", @"\.", StringComparison.Ordinal)));
        Types().That().ResideInNamespaceMatching($@"^Cockpit\.{folder.Replace(".", @"\.", StringComparison.Ordinal)}(\.|$)")
            .Should().NotDependOnAny(Types().That().ResideInNamespaceMatching($@"^Cockpit\.(?!({allowed})(\.|$))"))
            .Check(Everything);
    }

    private static void NotUse(string folder, string forbidden) =>
        Types().That().ResideInNamespaceMatching($@"^Cockpit\.{folder.Replace(".", @"\.", StringComparison.Ordinal)}(\.|$)")
            .Should().NotDependOnAnyTypesThat().HaveFullNameMatching(forbidden)
            .Check(Everything);
}
