using Parquet;
using Parquet.Schema;

namespace Cockpit.Exports;

/// <summary>A table as Apache Parquet: every column may hold nulls, times are UTC to the microsecond, units stand in the file's metadata.</summary>
/// <remarks>Only the part of the library that writes columns is used: what maps classes needs reflection, which the native program has not.</remarks>
public static class ParquetTable
{
    /// <summary>Under this key the file holds names, units and meanings of its columns, as JSON.</summary>
    public const string ColumnsKey = "columns";

    private const int RowsInGroup = 65_536;

    /// <summary>Writes it; a group of rows is held in memory.</summary>
    /// <param name="table">The table.</param>
    /// <param name="output">Where to.</param>
    public static async Task WriteAsync(ExportTable table, Stream output)
    {
        ArgumentNullException.ThrowIfNull(table);
        DataField[] fields = [.. table.Columns.Select(Field)];
        ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema(fields), output).ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            var about = table.About.ToDictionary(StringComparer.Ordinal);
            about[ColumnsKey] = TextTables.Columns(table);
            writer.CustomMetadata = about;
            foreach (ExportValue[][] rows in table.Rows.Chunk(RowsInGroup))
            {
                using ParquetRowGroupWriter group = writer.CreateRowGroup();
                for (int i = 0; i < fields.Length; i++)
                {
                    await WriteAsync(group, fields[i], table.Columns[i], rows, i).ConfigureAwait(false);
                }

                group.CompleteValidate();
            }
        }
    }

    private static DataField Field(ExportColumn column) => column.Kind switch
    {
        ExportKind.Number => new DataField<double?>(column.Name),
        ExportKind.Whole => new DataField<long?>(column.Name),
        ExportKind.Truth => new DataField<bool?>(column.Name),
        ExportKind.Instant => new DateTimeDataField(column.Name, DateTimeFormat.Timestamp, isAdjustedToUTC: true, unit: DateTimeTimeUnit.Micros, isNullable: true),
        _ => new DataField<string>(column.Name),
    };

    private static async Task WriteAsync(ParquetRowGroupWriter group, DataField field, ExportColumn column, ExportValue[][] rows, int at)
    {
        var words = new Dictionary<string, string>(StringComparer.Ordinal) { ["unit"] = column.Unit, ["description"] = column.What };
        switch (column.Kind)
        {
            case ExportKind.Number:
                await group.WriteAsync<double>(field, Array.ConvertAll(rows, row => row[at].IsKnown ? row[at].Number : (double?)null), null, words).ConfigureAwait(false);
                break;
            case ExportKind.Whole:
                await group.WriteAsync<long>(field, Array.ConvertAll(rows, row => row[at].IsKnown ? row[at].Whole : (long?)null), null, words).ConfigureAwait(false);
                break;
            case ExportKind.Truth:
                await group.WriteAsync<bool>(field, Array.ConvertAll(rows, row => row[at].IsKnown ? row[at].Whole != 0 : (bool?)null), null, words).ConfigureAwait(false);
                break;
            case ExportKind.Instant:
                await group.WriteAsync<DateTime>(field, Array.ConvertAll(rows, row => row[at].IsKnown ? row[at].Utc : (DateTime?)null), null, words).ConfigureAwait(false);
                break;
            default:
                await WriteTextsAsync(group, field, Array.ConvertAll(rows, row => row[at].Text)).ConfigureAwait(false);
                break;
        }
    }

    // The library takes nulls as missing values, though it does not say so.
    private static Task WriteTextsAsync(ParquetRowGroupWriter group, DataField field, string?[] texts)
    {
#nullable disable warnings
        return group.WriteAsync(field, texts);
#nullable restore
    }
}
