using Cockpit.Core.Signal;

namespace Cockpit.Core.Formats.Signal;

/// <summary>Which word of the lines stands for which value: fixed by the first three lines that agree, so that a level is not one thing now and another later.</summary>
/// <remarks>Words for lock are no names: any of them counts. A word that comes no more for twenty others is given up.</remarks>
internal sealed class AgreedNames
{
    private const int LinesToAgree = 3;
    private const int LinesToGiveUp = 20;

    private readonly Dictionary<string, Agreement> _agreements = new(StringComparer.Ordinal);

    /// <summary>What the last line settled, for people; null when nothing new.</summary>
    public string? Told { get; private set; }

    /// <summary>Keeps of a measurement what is called as agreed.</summary>
    /// <param name="sample">What was read.</param>
    /// <param name="names">What the line calls the values.</param>
    /// <returns>What remains; null when nothing does.</returns>
    public SignalSample? Keep(SignalSample sample, SignalNames names)
    {
        List<string>? settled = null;
        Told = null;
        bool level = Agrees("level", sample.LevelDb is not null, names, ref settled);
        bool snr = Agrees("snr", sample.SnrDb is not null, names, ref settled);
        bool density = Agrees("cn0", sample.Cn0DbHz is not null, names, ref settled);
        bool offset = Agrees("df", sample.OffsetHz is not null, names, ref settled);
        bool frames = Agrees("frames", sample.Frames is not null, names, ref settled);
        bool errors = Agrees("ber", sample.BitErrorRatio is not null, names, ref settled);
        bool clipped = Agrees("clip", sample.Clipped is not null, names, ref settled);
        Told = settled is null ? null : "reads " + string.Join(", ", settled);
        if (level && snr && density && offset && frames && errors && clipped)
        {
            return sample;
        }

        SignalSample kept = sample with
        {
            LevelDb = level ? sample.LevelDb : null,
            SnrDb = snr ? sample.SnrDb : null,
            Cn0DbHz = density ? sample.Cn0DbHz : null,
            OffsetHz = offset ? sample.OffsetHz : null,
            Frames = frames ? sample.Frames : null,
            BitErrorRatio = errors ? sample.BitErrorRatio : null,
            Clipped = clipped ? sample.Clipped : null,
        };
        return kept == new SignalSample { Utc = kept.Utc } ? null : kept;
    }

    private bool Agrees(string key, bool given, SignalNames names, ref List<string>? settled)
    {
        if (!given)
        {
            return true;
        }

        string name = names.Of(key) ?? key;
        if (!_agreements.TryGetValue(key, out Agreement agreed))
        {
            _agreements.Add(key, new Agreement(name, 1, 0));
            return true;
        }

        if (string.Equals(agreed.Name, name, StringComparison.Ordinal))
        {
            int lines = Math.Min(agreed.Lines + 1, LinesToAgree);
            if (lines == LinesToAgree && agreed.Lines < LinesToAgree && names.Of(key) is not null)
            {
                (settled ??= []).Add($"'{name}' as {key}");
            }

            _agreements[key] = new Agreement(name, lines, 0);
            return true;
        }

        bool settledAlready = agreed.Lines == LinesToAgree && agreed.Others + 1 < LinesToGiveUp;
        _agreements[key] = settledAlready ? agreed with { Others = agreed.Others + 1 } : new Agreement(name, 1, 0);
        return !settledAlready;
    }

    private readonly record struct Agreement(string Name, int Lines, int Others);
}
