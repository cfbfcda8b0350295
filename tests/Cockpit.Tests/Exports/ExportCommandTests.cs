using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Exports;
using Cockpit.Session.Review;
using Cockpit.Tests.Commands;
using ParquetSharp;

namespace Cockpit.Tests.Exports;

public sealed class ExportCommandTests : IDisposable
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-export-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // The reader is that of the Apache Arrow project, which shares no code with the writer.
    [Fact]
    public async Task Csv_json_and_parquet_hold_the_same_table_by_an_independent_reader()
    {
        string[][] csv = [.. (await Exported("pass.csv")).TrimEnd('\n').Split('\n').Select(line => line.Split(','))];
        using var json = JsonDocument.Parse(await Exported("pass.json"));
        await Exported("pass.parquet");
        using var parquet = new ParquetFileReader(Path.Combine(_folder, "pass.parquet"));
        Assert.Equal(csv.Length - 1, parquet.FileMetaData.NumRows);
        Assert.Equal(csv.Length - 1, json.RootElement.GetProperty("rows").GetArrayLength());
        Assert.Equal("PETREL 2", parquet.FileMetaData.KeyValueMetadata["satellite"]);
        Assert.Equal("PETREL 2", json.RootElement.GetProperty("about").GetProperty("satellite").GetString());
        using var columns = JsonDocument.Parse(parquet.FileMetaData.KeyValueMetadata["columns"]);
        Assert.Equal(json.RootElement.GetProperty("columns").GetRawText(), columns.RootElement.GetProperty("columns").GetRawText());
        using RowGroupReader group = parquet.RowGroup(0);
        int known = 0;
        for (int i = 0; i < csv[0].Length; i++)
        {
            Assert.Equal(csv[0][i], parquet.FileMetaData.Schema.Column(i).Name);
            Assert.Equal(csv[0][i], columns.RootElement.GetProperty("columns")[i].GetProperty("name").GetString());
            string[] values = Texts(group, i);
            for (int row = 0; row < values.Length; row++)
            {
                Assert.Equal(csv[row + 1][i], values[row]);
                Assert.Equal(csv[row + 1][i], Text(json.RootElement.GetProperty("rows")[row][i]));
                known += values[row].Length > 0 ? 1 : 0;
            }
        }

        Assert.InRange(known, csv.Length * 20, csv.Length * csv[0].Length);
    }

    [Fact]
    public async Task A_row_each_tenth_of_a_second_says_where_the_satellite_was_and_what_was_known()
    {
        string[] lines = (await Exported("pass.csv")).TrimEnd('\n').Split('\n');
        string[] names = lines[0].Split(',');
        Dictionary<string, string>[] rows = [.. lines.Skip(1).Select(line => names.Zip(line.Split(',')).ToDictionary(one => one.First, one => one.Second, StringComparer.Ordinal))];
        Assert.Equal(Enumerable.Range(1, rows.Length).Select(i => (i / 10.0).ToString(CultureInfo.InvariantCulture)), rows.Select(row => row["elapsed_s"]));
        Assert.Equal("2026-11-25T10:36:57.000000Z", rows[19]["utc"]);
        CommandRun look = await CommandRun.Of("look", "--elements", Elements(), "--station", "50.2,10.4,380", "--at", "2026-11-25T10:36:57Z", "--format", "csv");
        Assert.Contains($",{Shortened(rows[19]["azimuth_deg"])}", look.Output, StringComparison.Ordinal);
        Assert.Contains($",{Shortened(rows[19]["elevation_deg"])}", look.Output, StringComparison.Ordinal);
        Assert.Contains(rows, row => row["locked"] is "true" && row["line_received"] is "true" && row["snr_db"].Length > 0);
        Assert.Contains(rows, row => row["line_received"] is "false" && row["cause"].Length > 0);
        Assert.All(rows, row => Assert.True(row["sample_age_s"].Length > 0 == row["snr_db"].Length > 0));
    }

    [Fact]
    public async Task The_lost_lines_are_those_of_the_review()
    {
        Assert.True(Recording.ReadAll(Sample).Try(out Recording? recording, out ParseError? error), $"{error}");
        SessionReview review = ReviewRecorder.Of(recording.Envelopes)!;
        string[] lines = (await Exported("lost.csv", "--lost-lines")).TrimEnd('\n').Split('\n');
        Assert.Equal("line,utc,cause,confidence", lines[0]);
        Assert.Equal(review.Lines.Lost, lines.Length - 1);
        Assert.Equal(
            review.LineStates.Select((state, i) => (state, i)).Where(one => one.state == LineState.Lost).Select(one => (one.i + 1).ToString(CultureInfo.InvariantCulture)),
            lines.Skip(1).Select(line => line.Split(',')[0]));
        foreach (Gap gap in review.Gaps.Where(gap => gap.Lines > 5))
        {
            Assert.InRange(lines.Count(line => line.Contains($",{CauseWords.NameOf(gap.Cause)},", StringComparison.Ordinal)), gap.Lines, review.Lines.Lost);
        }
    }

    [Theory]
    [InlineData("pass.xls", "does not end in")]
    [InlineData("no/such/folder/pass.csv", "cannot be written")]
    [InlineData("pass.sigmf-meta", "--recording: it is missing")]
    public async Task What_cannot_be_written_is_told_and_nothing_is_left_behind(string file, string told)
    {
        CommandRun run = await CommandRun.Of("export", Sample, "--out", Path.Combine(_folder, file));
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains(told, run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public void Every_column_stands_in_the_description_of_the_sessions()
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, "sessions", "README.md"));
        string table = text[text.IndexOf("<!-- columns:begin -->", StringComparison.Ordinal)..text.IndexOf("<!-- columns:end -->", StringComparison.Ordinal)];
        Assert.Equal(
            GridTable.Of([], null, []).Columns.Select(column => $"| `{column.Name}` | {column.Unit} | {column.What} |"),
            table.Split('\n').Where(line => line.StartsWith("| `", StringComparison.Ordinal)));
    }

    private async Task<string> Exported(string name, params string[] more)
    {
        string path = Path.Combine(_folder, name);
        CommandRun run = await CommandRun.Of(["export", Sample, "--out", path, .. more]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal($"{path}  {new FileInfo(path).Length} bytes\n", run.Output);
        return await File.ReadAllTextAsync(path);
    }

    // The command prints other numbers of decimals; four of five agree but for the last one's rounding.
    private static string Shortened(string degrees) => degrees[..(degrees.IndexOf('.', StringComparison.Ordinal) + 4)];

    private string Elements()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetFileName(_folder) + ".tle");
        File.WriteAllLines(
            path,
            ["PETREL 2", "1 99102U 26910A   26329.13888889  .00000061  00000-0  41000-4 0  9990", "2 99102  98.7420  41.0000 0010213  84.3100 275.9300 14.19552000 45216"]);
        return path;
    }

    private static string[] Texts(RowGroupReader group, int at)
    {
        using ColumnReader column = group.Column(at);
        int rows = (int)group.MetaData.NumRows;
        return column.ColumnDescriptor.LogicalType switch
        {
            TimestampLogicalType { IsAdjustedToUtc: true } => [.. column.LogicalReader<DateTime?>().ReadAll(rows).Select(v => v?.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture) ?? "")],
            StringLogicalType => [.. column.LogicalReader<string?>().ReadAll(rows).Select(v => v ?? "")],
            _ when column.ColumnDescriptor.PhysicalType == PhysicalType.Double => [.. column.LogicalReader<double?>().ReadAll(rows).Select(v => v?.ToString(CultureInfo.InvariantCulture) ?? "")],
            _ when column.ColumnDescriptor.PhysicalType == PhysicalType.Boolean => [.. column.LogicalReader<bool?>().ReadAll(rows).Select(v => v is { } truth ? (truth ? "true" : "false") : "")],
            _ => [.. column.LogicalReader<long?>().ReadAll(rows).Select(v => v?.ToString(CultureInfo.InvariantCulture) ?? "")],
        };
    }

    private static string Text(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => "",
        JsonValueKind.Number => value.GetDouble().ToString(CultureInfo.InvariantCulture),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => value.GetString() ?? "",
    };
}
