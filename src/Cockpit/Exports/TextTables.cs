using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Cockpit.Exports;

/// <summary>A table as CSV (RFC 4180) or as one JSON object; UTF-8, written while the rows are made.</summary>
public static class TextTables
{
    private const int FlushBytes = 64 * 1024;

    /// <summary>Writes CSV: a header of the names, then the rows; missing values are empty.</summary>
    /// <param name="table">The table.</param>
    /// <param name="output">Where to.</param>
    public static async Task WriteCsvAsync(ExportTable table, Stream output)
    {
        ArgumentNullException.ThrowIfNull(table);
        StringBuilder line = new();
        var writer = new StreamWriter(output, new UTF8Encoding(false), FlushBytes, leaveOpen: true);
        await using (writer.ConfigureAwait(false))
        {
            await writer.WriteAsync(string.Join(',', table.Columns.Select(column => column.Name)) + "\n").ConfigureAwait(false);
            foreach (ExportValue[] row in table.Rows)
            {
                line.Clear();
                for (int i = 0; i < row.Length; i++)
                {
                    line.Append(i == 0 ? "" : ",").Append(Text(row[i], table.Columns[i].Kind));
                }

                await writer.WriteAsync(line.Append('\n')).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Writes JSON: <c>about</c>, <c>columns</c> with name, unit and meaning, <c>rows</c> as arrays in the order of the columns.</summary>
    /// <param name="table">The table.</param>
    /// <param name="output">Where to.</param>
    public static async Task WriteJsonAsync(ExportTable table, Stream output)
    {
        ArgumentNullException.ThrowIfNull(table);
        var json = new Utf8JsonWriter(output);
        await using (json.ConfigureAwait(false))
        {
            json.WriteStartObject();
            WriteAbout(json, table);
            WriteColumns(json, table);
            json.WriteStartArray("rows"u8);
            foreach (ExportValue[] row in table.Rows)
            {
                json.WriteStartArray();
                for (int i = 0; i < row.Length; i++)
                {
                    Write(json, row[i], table.Columns[i].Kind);
                }

                json.WriteEndArray();
                if (json.BytesPending > FlushBytes)
                {
                    await json.FlushAsync().ConfigureAwait(false);
                }
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }
    }

    /// <summary>The columns as a JSON array, for forms of file that keep it as a text.</summary>
    /// <param name="table">The table.</param>
    public static string Columns(ExportTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes))
        {
            json.WriteStartObject();
            WriteColumns(json, table);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static void WriteAbout(Utf8JsonWriter json, ExportTable table)
    {
        json.WriteStartObject("about"u8);
        foreach ((string key, string value) in table.About)
        {
            json.WriteString(key, value);
        }

        json.WriteEndObject();
    }

    private static void WriteColumns(Utf8JsonWriter json, ExportTable table)
    {
        json.WriteStartArray("columns"u8);
        foreach (ExportColumn column in table.Columns)
        {
            json.WriteStartObject();
            json.WriteString("name"u8, column.Name);
            json.WriteString("unit"u8, column.Unit);
            json.WriteString("what"u8, column.What);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, ExportValue value, ExportKind kind)
    {
        if (!value.IsKnown)
        {
            json.WriteNullValue();
            return;
        }

        switch (kind)
        {
            case ExportKind.Number: json.WriteNumberValue(value.Number); break;
            case ExportKind.Whole: json.WriteNumberValue(value.Whole); break;
            case ExportKind.Truth: json.WriteBooleanValue(value.Whole != 0); break;
            default: json.WriteStringValue(Text(value, kind)); break;
        }
    }

    private static string Text(ExportValue value, ExportKind kind) => !value.IsKnown ? "" : kind switch
    {
        ExportKind.Number => value.Number.ToString(CultureInfo.InvariantCulture),
        ExportKind.Whole => value.Whole.ToString(CultureInfo.InvariantCulture),
        ExportKind.Truth => value.Whole != 0 ? "true" : "false",
        ExportKind.Instant => value.Utc.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture),
        _ => value.Text ?? "",
    };
}
