using Cockpit.Commands;

namespace Cockpit.Tests.Commands;

public sealed class OutputRowsTests
{
    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+SUM(A1)", "'+SUM(A1)")]
    [InlineData("-2", "'-2")]
    [InlineData("@x", "'@x")]
    [InlineData("=A1,\"x\"", "\"'=A1,\"\"x\"\"\"")]
    [InlineData("PETREL 2", "PETREL 2")]
    [InlineData("PETREL=2", "PETREL=2")]
    public void A_name_never_goes_into_a_spreadsheet_as_a_formula(string name, string expected) =>
        Assert.Equal($"name,number\n{expected},-2.00\n", Csv(Cell.Of(name), Cell.Of(-2.0, 2)));

    private static string Csv(params Cell[] cells)
    {
        using StringWriter output = new();
        OutputRows rows = new(output, OutputFormat.Csv, [new("name", "name", -8), new("number", "number", 8)]);
        rows.Begin();
        rows.Add(cells);
        rows.End();
        return output.ToString();
    }
}
