using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Devices.Journal;

/// <summary>An element set of the settings, every number in its shortest exact form; angles in radians like everywhere in a journal.</summary>
/// <remarks>The first journals (<c>session.opened/1</c>) hold the lines of a TLE as one string instead; that is read too.</remarks>
internal sealed class ElementSetJson : JsonConverter<ElementSet>
{
    public override ElementSet? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.String)
        {
            return OfLines(reader.GetString() ?? "");
        }

        ElementSet read = ReadMembers(ref reader);
        return read.Validate() is { } error ? throw new EventJsonException(error.Message) : read;
    }

    public override void Write(Utf8JsonWriter writer, ElementSet value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteString("name"u8, value.Name);
        writer.WriteNumber("catalog_number"u8, value.CatalogNumber);
        writer.WriteString("classification"u8, [value.Classification]);
        writer.WriteString("international_designator"u8, value.InternationalDesignator);
        writer.WriteNumber("epoch_day"u8, value.Epoch.Day);
        writer.WriteNumber("epoch_fraction"u8, value.Epoch.Fraction);
        writer.WriteNumber("mean_motion_rev_per_day"u8, value.MeanMotionRevPerDay);
        writer.WriteNumber("mean_motion_dot_rev_per_day2"u8, value.MeanMotionDotRevPerDay2);
        writer.WriteNumber("mean_motion_ddot_rev_per_day3"u8, value.MeanMotionDdotRevPerDay3);
        writer.WriteNumber("b_star"u8, value.BStar);
        writer.WriteNumber("inclination_rad"u8, value.Inclination.Radians);
        writer.WriteNumber("right_ascension_rad"u8, value.RightAscension.Radians);
        writer.WriteNumber("eccentricity"u8, value.Eccentricity);
        writer.WriteNumber("argument_of_perigee_rad"u8, value.ArgumentOfPerigee.Radians);
        writer.WriteNumber("mean_anomaly_rad"u8, value.MeanAnomaly.Radians);
        writer.WriteNumber("ephemeris_type"u8, value.EphemerisType);
        writer.WriteNumber("element_set_number"u8, value.ElementSetNumber);
        writer.WriteNumber("revolution_number"u8, value.RevolutionNumber);
        writer.WriteEndObject();
    }

    /// <summary>No lines, or lines that hold no set, are a session without elements.</summary>
    private static ElementSet? OfLines(string lines) =>
        ElementSets.Read("session", new StringReader(lines)) is { Sets: [var first, ..] } ? first : null;

    /// <summary>What is not there is not a number, and so outside its limits.</summary>
    private static ElementSet Unread { get; } = new()
    {
        Name = "",
        CatalogNumber = 0,
        Epoch = default,
        MeanMotionRevPerDay = double.NaN,
        Inclination = Angle.FromRadians(double.NaN),
        RightAscension = Angle.FromRadians(double.NaN),
        Eccentricity = double.NaN,
        ArgumentOfPerigee = Angle.FromRadians(double.NaN),
        MeanAnomaly = Angle.FromRadians(double.NaN),
    };

    private static ElementSet ReadMembers(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            throw new EventJsonException("an element set was expected");
        }

        string? name = null;
        int number = -1;
        double day = double.NaN;
        double fraction = double.NaN;
        ElementSet set = Unread;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            string member = reader.GetString() ?? "";
            reader.Read();
            try
            {
                switch (member)
                {
                    case "name": name = reader.GetString(); break;
                    case "catalog_number": number = reader.GetInt32(); break;
                    case "epoch_day": day = reader.GetDouble(); break;
                    case "epoch_fraction": fraction = reader.GetDouble(); break;
                    default: set = With(set, member, ref reader); break;
                }
            }
            catch (Exception trouble) when (trouble is InvalidOperationException or FormatException)
            {
                throw new EventJsonException($"{Quoted.Of(member)} is not a value of that kind");
            }
        }

        // The epoch has limits of its own: 1900 to 2300.
        return name is not null && day is >= 2415020.5 and <= 2561117.5 && fraction is > -2.0 and < 2.0
            ? set with { Name = name, CatalogNumber = number, Epoch = new JulianDate(day, fraction) }
            : throw new EventJsonException("the element set has no name, or no epoch in the years 1900 to 2300");
    }

    private static ElementSet With(ElementSet set, string member, ref Utf8JsonReader reader)
    {
        switch (member)
        {
            case "classification": return set with { Classification = reader.GetString() is [var letter] ? letter : throw new EventJsonException("the classification is not one letter") };
            case "international_designator": return set with { InternationalDesignator = reader.GetString() ?? "" };
            case "mean_motion_rev_per_day": return set with { MeanMotionRevPerDay = reader.GetDouble() };
            case "mean_motion_dot_rev_per_day2": return set with { MeanMotionDotRevPerDay2 = reader.GetDouble() };
            case "mean_motion_ddot_rev_per_day3": return set with { MeanMotionDdotRevPerDay3 = reader.GetDouble() };
            case "b_star": return set with { BStar = reader.GetDouble() };
            case "inclination_rad": return set with { Inclination = Angle.FromRadians(reader.GetDouble()) };
            case "right_ascension_rad": return set with { RightAscension = Angle.FromRadians(reader.GetDouble()) };
            case "eccentricity": return set with { Eccentricity = reader.GetDouble() };
            case "argument_of_perigee_rad": return set with { ArgumentOfPerigee = Angle.FromRadians(reader.GetDouble()) };
            case "mean_anomaly_rad": return set with { MeanAnomaly = Angle.FromRadians(reader.GetDouble()) };
            case "ephemeris_type": return set with { EphemerisType = reader.GetInt32() };
            case "element_set_number": return set with { ElementSetNumber = reader.GetInt32() };
            case "revolution_number": return set with { RevolutionNumber = reader.GetInt32() };
            default: reader.Skip(); return set;
        }
    }
}
