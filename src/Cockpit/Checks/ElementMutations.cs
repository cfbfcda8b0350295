using System.Globalization;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Checks;

/// <summary>Reads damaged element files of every form; whatever comes, the reader must answer with sets and mistakes.</summary>
/// <param name="seed">Where the sequence of damage starts.</param>
/// <remarks>An exception that leaves <see cref="Run"/> is a defect; <see cref="Number"/> and <see cref="Text"/> then tell the input.</remarks>
public sealed class ElementMutations(ulong seed)
{
    private readonly TextMutator _mutator = new(ElementSamples.All, seed);

    /// <summary>How many inputs have been begun.</summary>
    public long Number { get; private set; }

    /// <summary>The last input.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Good sets so far.</summary>
    public long Sets { get; private set; }

    /// <summary>Mistakes told so far.</summary>
    public long Mistakes { get; private set; }

    /// <summary>Reads so many more damaged inputs, and propagates and writes what is read.</summary>
    /// <param name="count">How many.</param>
    /// <exception cref="InvalidOperationException">An input gave neither sets nor mistakes, a mistake without a place or words, or a state that is not a number.</exception>
    public void Run(int count)
    {
        for (int k = 0; k < count; k++)
        {
            Number++;
            Text = _mutator.Next();
            ElementFile file = ElementSets.Read("damaged", new StringReader(Text));
            Sets += file.Sets.Length;
            Mistakes += file.Errors.Length;
            Expect(file.Sets.Length + file.Errors.Length > 0, "neither sets nor mistakes");
            Expect(file.Errors.All(e => e.Line >= 0 && e.Column >= 0 && e.Message.Length > 0), "a mistake without a place or words");
            foreach (ElementSet set in file.Sets)
            {
                Use(set);
            }
        }
    }

    private void Use(ElementSet set)
    {
        var sgp4 = new Sgp4(set);
        foreach (double minutes in (ReadOnlySpan<double>)[0.0, -1000.0, 10_000.0])
        {
            PropagationStatus status = sgp4.Propagate(minutes, out TemeState s);
            Expect(status != PropagationStatus.Good || double.IsFinite(s.X + s.Y + s.Z + s.Vx + s.Vy + s.Vz), "a state that is not a number");
        }

        _ = TleWriter.Write(set);
    }

    private void Expect(bool good, string otherwise)
    {
        if (!good)
        {
            throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"damaged input {Number}: {otherwise}"));
        }
    }
}
