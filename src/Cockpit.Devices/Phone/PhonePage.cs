using System.Reflection;

namespace Cockpit.Devices.Phone;

/// <summary>The files of the page, built into the program.</summary>
internal static class PhonePage
{
    /// <summary>A file by its name in the address.</summary>
    /// <param name="name">Empty for the page itself.</param>
    /// <returns>Its content and kind; null where there is none.</returns>
    public static (byte[] Content, string Kind)? Find(string name) => name switch
    {
        "" => (Read("page.html"), "text/html; charset=utf-8"),
        "page.css" => (Read(name), "text/css; charset=utf-8"),
        "page.js" => (Read(name), "text/javascript; charset=utf-8"),
        _ => null,
    };

    private static byte[] Read(string name)
    {
        using Stream file = Assembly.GetExecutingAssembly().GetManifestResourceStream($"Cockpit.Devices.Phone.Page.{name}")
            ?? throw new InvalidOperationException($"The file {name} of the page is not built in.");
        byte[] content = new byte[file.Length];
        file.ReadExactly(content);
        return content;
    }
}
