using System.Globalization;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Makes an element set of the keywords and values of one OMM.</summary>
/// <param name="record">The message.</param>
/// <remarks>
/// CCSDS 502.0-B-3, section 4. Public catalogues leave the frame, the time system and the theory out; what is written must be
/// what SGP4 needs. The tag for the frame is TEME or, in the registry of names, TEMEOFDATE.
/// </remarks>
internal sealed class OmmElements(OmmRecord record)
{
    private (int Line, int Column, string Message)? _mistake;

    /// <summary>Reads a message; the set or the first mistake goes to the gathering.</summary>
    internal static void Read(OmmRecord record, ElementGathering into)
    {
        var reading = new OmmElements(record);
        if (reading.Read() is { } set && reading._mistake is null)
        {
            into.Add(set);
        }
        else if (reading._mistake is { } mistake)
        {
            into.Complain(mistake.Line, mistake.Column, mistake.Message);
        }
    }

    private ElementSet? Read()
    {
        if (record.Twice is { } twice)
        {
            Complain(twice.Second, $"{twice.Keyword} stands twice in one message; leave one");
        }

        CheckMeaning();
        CheckPresence();
        if (_mistake is not null)
        {
            return null;
        }

        int number = Whole(OmmKeyword.CatalogNumber, "0");
        var set = new ElementSet
        {
            Name = record.Find(OmmKeyword.ObjectName)?.Text ?? number.ToString("00000", CultureInfo.InvariantCulture),
            CatalogNumber = number,
            Classification = record.Find(OmmKeyword.Classification)?.Text[0] ?? 'U',
            InternationalDesignator = record.Find(OmmKeyword.ObjectId)?.Text ?? "",
            Epoch = Epoch(),
            MeanMotionRevPerDay = Number(OmmKeyword.MeanMotion, "rev/day"),
            MeanMotionDotRevPerDay2 = Number(OmmKeyword.MeanMotionDot, "rev/day**2", "0"),
            MeanMotionDdotRevPerDay3 = Number(OmmKeyword.MeanMotionDdot, "rev/day**3", "0"),
            BStar = Number(OmmKeyword.BStar, "1/ER"),
            Inclination = Degrees(OmmKeyword.Inclination),
            RightAscension = Degrees(OmmKeyword.RightAscension),
            Eccentricity = Number(OmmKeyword.Eccentricity, ""),
            ArgumentOfPerigee = Degrees(OmmKeyword.ArgumentOfPerigee),
            MeanAnomaly = Degrees(OmmKeyword.MeanAnomaly),
            EphemerisType = Whole(OmmKeyword.EphemerisType, "0"),
            ElementSetNumber = Whole(OmmKeyword.ElementSetNumber, "0"),
            RevolutionNumber = Whole(OmmKeyword.Revolution, "0"),
        };
        if (_mistake is null && set.Validate() is { } error)
        {
            Complain(record.Find(KeywordOf(error.Field)), $"{KeywordOf(error.Field)}: {error.Message}");
        }

        return set;
    }

    /// <summary>What is legal in an OMM but not usable here; every such keyword is named.</summary>
    private void CheckMeaning()
    {
        (string Keyword, string[] Good)[] rules =
        [
            (OmmKeyword.Version, ["2.0", "3.0"]), (OmmKeyword.CenterName, ["EARTH"]), (OmmKeyword.RefFrame, ["TEME", "TEMEOFDATE"]),
            (OmmKeyword.TimeSystem, ["UTC"]), (OmmKeyword.Theory, ["SGP4", "SGP/SGP4"]),
        ];
        OmmValue? first = null;
        var wrong = new List<string>();
        foreach ((string keyword, string[] good) in rules)
        {
            if (record.Find(keyword) is { } value && !good.Contains(value.Text, StringComparer.OrdinalIgnoreCase))
            {
                first ??= value;
                wrong.Add($"{keyword} is {Quoted.Of(value.Text)}, expected {good[0]}");
            }
        }

        if (wrong.Count > 0)
        {
            Complain(first, $"{string.Join("; ", wrong)}: these elements cannot be used with SGP4");
        }
    }

    private void CheckPresence()
    {
        string[] needed =
        [
            OmmKeyword.Epoch, OmmKeyword.MeanMotion, OmmKeyword.Eccentricity, OmmKeyword.Inclination, OmmKeyword.RightAscension,
            OmmKeyword.ArgumentOfPerigee, OmmKeyword.MeanAnomaly, OmmKeyword.BStar,
        ];
        string[] missing = [.. needed.Where(keyword => record.Find(keyword) is null)];
        if (missing.Length > 0)
        {
            string axis = missing.Contains(OmmKeyword.MeanMotion, StringComparer.Ordinal) && record.Find(OmmKeyword.SemiMajorAxis) is not null
                ? " (SEMI_MAJOR_AXIS cannot stand for it)" : "";
            string verb = missing.Length == 1 ? "is" : "are";
            Complain(null, $"{string.Join(", ", missing)} {verb} missing{axis}; get the element set again");
        }
    }

    private JulianDate Epoch()
    {
        OmmValue value = record.Find(OmmKeyword.Epoch)!.Value;
        if (CcsdsTime.Read(value.Text) is { } epoch)
        {
            return epoch;
        }

        Complain(value, $"EPOCH is {Quoted.Of(value.Text)}, expected a UTC like 2026-11-24T05:58:36.361344 or 2026-328T05:58:36.361344");
        return default;
    }

    private Angle Degrees(string keyword) => Angle.FromDegrees(Number(keyword, "deg"));

    private double Number(string keyword, string unit, string? without = null)
    {
        OmmValue? value = record.Find(keyword);
        if (!NumberText.TryRead(value?.Text ?? without, out double number))
        {
            Complain(value, $"{keyword} is {Quoted.Of(value?.Text)}, expected a number");
        }

        if (value?.Unit is { } given && !given.Equals(unit, StringComparison.OrdinalIgnoreCase))
        {
            Complain(value, $"{keyword} has the unit {Quoted.Of(given)}, expected {(unit.Length > 0 ? unit : "none")}");
        }

        return number;
    }

    private int Whole(string keyword, string without)
    {
        OmmValue? value = record.Find(keyword);
        if (!int.TryParse(value?.Text ?? without, NumberStyles.None, CultureInfo.InvariantCulture, out int number))
        {
            Complain(value, $"{keyword} is {Quoted.Of(value?.Text)}, expected a whole number");
        }

        return number;
    }

    private void Complain(OmmValue? where, string message) =>
        _mistake ??= (where?.Line ?? record.Line, where?.Column ?? record.Column, message);

    private static string KeywordOf(ElementField field) => field switch
    {
        ElementField.MeanMotion => OmmKeyword.MeanMotion,
        ElementField.Eccentricity => OmmKeyword.Eccentricity,
        ElementField.Inclination => OmmKeyword.Inclination,
        ElementField.RightAscension => OmmKeyword.RightAscension,
        ElementField.ArgumentOfPerigee => OmmKeyword.ArgumentOfPerigee,
        ElementField.MeanAnomaly => OmmKeyword.MeanAnomaly,
        ElementField.BStar => OmmKeyword.BStar,
        ElementField.EphemerisType => OmmKeyword.EphemerisType,
        _ => OmmKeyword.CatalogNumber,
    };
}
