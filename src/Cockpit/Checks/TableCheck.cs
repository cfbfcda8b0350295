using System.Globalization;

namespace Cockpit.Checks;

/// <summary>How one column or group of a published table compares with our computation.</summary>
/// <param name="Table">Folder and file of the table.</param>
/// <param name="Quantity">What was compared.</param>
/// <param name="Compared">How many values were compared; a table that compares nothing is not ok.</param>
/// <param name="Largest">Largest difference found; NaN where one value could not be computed.</param>
/// <param name="Tolerance">Largest difference allowed.</param>
/// <param name="Unit">Unit of both.</param>
public sealed record TableCheck(string Table, string Quantity, int Compared, double Largest, double Tolerance, string Unit)
{
    /// <summary>Whether something was compared and all of it agrees; false for NaN.</summary>
    public bool Ok => Compared > 0 && Largest <= Tolerance;

    /// <summary>One line for people.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{(Ok ? "ok  " : "FAIL")} {Table,-40} {Quantity,-34} {Compared,6} values  largest {Largest:0.0e+00} {Unit}, tolerance {Tolerance:0.0e+00} {Unit}");
}

/// <summary>Gathers differences into one <see cref="TableCheck"/>.</summary>
/// <param name="table">Folder and file of the table.</param>
/// <param name="quantity">What is compared.</param>
/// <param name="tolerance">Largest difference allowed.</param>
/// <param name="unit">Unit of the differences.</param>
public sealed class DifferenceTally(string table, string quantity, double tolerance, string unit)
{
    private int _compared;
    private double _largest;

    /// <summary>Adds one difference; NaN stays and makes the check fail.</summary>
    /// <param name="difference">Ours minus published, either sign.</param>
    public void Add(double difference)
    {
        _compared++;
        double size = Math.Abs(difference);
        _largest = double.IsNaN(size) || double.IsNaN(_largest) ? double.NaN : Math.Max(_largest, size);
    }

    /// <summary>Adds one pair.</summary>
    /// <param name="ours">Computed.</param>
    /// <param name="published">From the table.</param>
    public void Add(double ours, double published) => Add(ours - published);

    /// <summary>Adds one pair as a difference relative to the published value.</summary>
    /// <param name="ours">Computed.</param>
    /// <param name="published">From the table, not zero.</param>
    public void AddRelative(double ours, double published) => Add((ours - published) / published);

    /// <summary>Adds a pair of angles in degrees, the short way round.</summary>
    /// <param name="oursDegrees">Computed.</param>
    /// <param name="publishedDegrees">From the table.</param>
    public void AddDegrees(double oursDegrees, double publishedDegrees) => Add(Math.IEEERemainder(oursDegrees - publishedDegrees, 360.0));

    /// <summary>What was found so far.</summary>
    public TableCheck Result() => new(table, quantity, _compared, _largest, tolerance, unit);
}
