using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>How the data of events are written: snake_case names, the unit in the name (azimuth_rad, margin_db, downlink_hz, change_s).</summary>
/// <remarks>
/// Doubles are the shortest text that reads back to the same bits; time spans are decimal seconds, exact to 100 ns. Angles stay in
/// radians, because degrees and back is not exact and a replay must be.
/// </remarks>
internal static class EventJson
{
    private static readonly JsonSerializerOptions Options = MakeOptions();

    /// <summary>How to write and read one type of event.</summary>
    internal static JsonTypeInfo For(Type eventType) => Options.GetTypeInfo(eventType);

    private static JsonSerializerOptions MakeOptions()
    {
        JsonSerializerOptions options = Plain();
        options.Converters.Insert(0, new DefaultsConverter<SessionSettings>(Unsaid, (JsonTypeInfo<SessionSettings>)Plain().GetTypeInfo(typeof(SessionSettings))));
        options.MakeReadOnly();
        return options;
    }

    private static SessionSettings Unsaid => new()
    {
        ProgramVersion = "",
        Kind = SessionKind.Other,
        StationName = "",
        Station = default,
        SatelliteName = "",
    };

    private static JsonSerializerOptions Plain()
    {
        JsonSerializerOptions options = new(JournalJson.Default.Options)
        {
            // A journal is not a web page: people read it, so letters stay letters.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            TypeInfoResolver = JournalJson.Default.WithAddedModifier(PutUnitsInNames),
        };
        options.Converters.Add(new NumberConverter<Angle>(angle => angle.Radians, radians => Angle.FromRadians(radians)));
        options.Converters.Add(new NumberConverter<Decibels>(ratio => ratio.Value, value => new Decibels(value)));
        options.Converters.Add(new NumberConverter<Dbm>(power => power.Value, value => new Dbm(value)));
        options.Converters.Add(new NumberConverter<Frequency>(frequency => frequency.Hertz, hertz => new Frequency(hertz)));
        options.Converters.Add(new SecondsConverter());
        options.Converters.Add(new SessionKindJson());
        options.Converters.Add(new FeedSettingsJson());
        options.Converters.Add(new ElementSetJson());
        return options;
    }

    private static void PutUnitsInNames(JsonTypeInfo info)
    {
        foreach (JsonPropertyInfo property in info.Properties)
        {
            property.Name += Suffix(Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType);
        }
    }

    private static string Suffix(Type type) => type switch
    {
        _ when type == typeof(Angle) => "_rad",
        _ when type == typeof(Decibels) => "_db",
        _ when type == typeof(Dbm) => "_dbm",
        _ when type == typeof(Frequency) => "_hz",
        _ when type == typeof(TimeSpan) => "_s",
        _ => "",
    };

    private sealed class NumberConverter<T>(Func<T, double> toNumber, Func<double, T> fromNumber) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.TokenType == JsonTokenType.Number ? fromNumber(reader.GetDouble()) : throw new EventJsonException("a number was expected");

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteNumberValue(toNumber(value));
    }

    private sealed class SecondsConverter : JsonConverter<TimeSpan>
    {
        public override TimeSpan Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => ExactSeconds.Read(ref reader);

        public override void Write(Utf8JsonWriter writer, TimeSpan value, JsonSerializerOptions options) => writer.WriteNumberValue(ExactSeconds.Of(value));
    }
}
