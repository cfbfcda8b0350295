using ScottPlot;
using SkiaSharp;

namespace Cockpit.Reports.Pictures;

/// <summary>The letters of the pictures: shipped in the program, so that a machine without any fonts draws the same as every other.</summary>
internal sealed class Letters : IFontResolver
{
    /// <summary>Name of the typeface inside the picture library.</summary>
    public const string Name = "Cockpit letters";

    private const string Resource = "Cockpit.Reports.Pictures.letters.ttf";
    private static readonly Lazy<SKTypeface> Face = new(Read);

    private Letters()
    {
    }

    /// <summary>Makes them known to the picture library; as often as wanted.</summary>
    public static void Use()
    {
        if (!Fonts.FontResolvers.Any(resolver => resolver is Letters))
        {
            Fonts.FontResolvers.Insert(0, new Letters());
            Fonts.Default = Name;
        }
    }

    /// <inheritdoc/>
    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        string.Equals(fontName, Name, StringComparison.Ordinal) ? Face.Value : null;

    /// <inheritdoc/>
    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => string.Equals(fontName, Name, StringComparison.Ordinal) ? Face.Value : null;

    private static SKTypeface Read()
    {
        using Stream stream = typeof(Letters).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException($"the program was built without {Resource}");
        return SKTypeface.FromStream(stream);
    }
}
