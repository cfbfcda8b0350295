using System.Buffers;
using System.Text;
using System.Text.Json;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>A moment of the guidance as one line of JSON: degrees, dB, UTC; what there is not is null.</summary>
/// <remarks>Angles have six decimals, so that the parts of a move add up to its size; not safe for two threads.</remarks>
public sealed class GuideJson
{
    private const int Decimals = 6;
    private readonly ArrayBufferWriter<byte> _buffer = new(1024);

    /// <summary>The line, without its end.</summary>
    public string Line(GuideMoment moment)
    {
        ArgumentNullException.ThrowIfNull(moment);
        _buffer.Clear();
        using (Utf8JsonWriter json = new(_buffer))
        {
            Write(json, moment);
        }

        return Encoding.UTF8.GetString(_buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, GuideMoment moment)
    {
        Snapshot now = moment.Snapshot;
        AimNow aim = now.Aim;
        json.WriteStartObject();
        json.WriteString("t", UtcText.Format(now.Utc));
        json.WriteString("word", Word(aim.Word));
        json.WriteString("reason", Reason(aim));
        Utc(json, "nudge_at", aim.Nudge is null ? null : aim.NudgeAt);
        Nudge(json, aim.NudgeAt is null ? null : aim.Nudge);
        Direction(json, "target", aim.Target?.Azimuth, aim.Target?.Elevation);
        Dish(json, aim);
        Satellite(json, now);
        Number(json, "measured_db", now.Link.MeasuredDb);
        Number(json, "expected_db", now.Link.ExpectedDb);
        Number(json, "loss_db", aim.PointingLoss?.Value);
        Number(json, "in_beam", aim.InBeam);
        Text(json, "cue", moment.Cue?.Text);
        Text(json, "message", now.Message?.Text);
        json.WriteEndObject();
    }

    private static string Word(AimWord word) => word switch
    {
        AimWord.Point => "point",
        AimWord.Hold => "hold",
        AimWord.Next => "next",
        AimWord.Move => "move",
        AimWord.Search => "search",
        _ => "done",
    };

    private static string Reason(AimNow aim) => aim.Compass is { } read
        ? FormattableString.Invariant($"{aim.Reason.Words()}; by compass {read.Azimuth.Degrees:0}, up {read.Elevation.Degrees:0}")
        : aim.ByPlan is { SilentFor: { } silent } ? FormattableString.Invariant($"{aim.Reason.Words()} {silent.TotalSeconds:0} s")
        : aim.Reason.Words();

    private static void Nudge(Utf8JsonWriter json, AimError? nudge)
    {
        if (nudge is not { } move)
        {
            json.WriteNull("nudge");
            return;
        }

        json.WriteStartObject("nudge");
        Degrees(json, "right_deg", move.Right);
        Degrees(json, "up_deg", move.Up);
        Degrees(json, "pan_deg", move.Pan);
        Degrees(json, "tilt_deg", move.Tilt);
        json.WriteEndObject();
    }

    private static void Direction(Utf8JsonWriter json, string name, Angle? azimuth, Angle? elevation)
    {
        if (azimuth is not { } az || elevation is not { } el)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        Degrees(json, "az_deg", az);
        Degrees(json, "el_deg", el);
        json.WriteEndObject();
    }

    private static void Dish(Utf8JsonWriter json, AimNow aim)
    {
        if (aim.Dish is not { } dish)
        {
            json.WriteNull("dish");
            return;
        }

        json.WriteStartObject("dish");
        Degrees(json, "az_deg", dish.Azimuth);
        Degrees(json, "el_deg", dish.Elevation);
        Degrees(json, "sd_deg", dish.Spread);
        Number(json, "r50_deg", aim.Region?.R50.Degrees);
        Number(json, "r95_deg", aim.Region?.R95.Degrees);
        json.WriteEndObject();
    }

    private static void Satellite(Utf8JsonWriter json, Snapshot now)
    {
        if (now.Sky?.Now is not { } look)
        {
            json.WriteNull("satellite");
            return;
        }

        json.WriteStartObject("satellite");
        Degrees(json, "az_deg", look.Azimuth);
        Degrees(json, "el_deg", look.Elevation);
        Number(json, "range_km", look.RangeKm);
        Number(json, "doppler_hz", now.Link.Doppler?.Hertz);
        json.WriteEndObject();
    }

    private static void Degrees(Utf8JsonWriter json, string name, Angle angle) => Number(json, name, angle.Degrees);

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, Math.Round(number, Decimals));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void Text(Utf8JsonWriter json, string name, string? text)
    {
        if (text is null)
        {
            json.WriteNull(name);
        }
        else
        {
            json.WriteString(name, text);
        }
    }

    private static void Utc(Utf8JsonWriter json, string name, DateTimeOffset? utc) => Text(json, name, utc is { } at ? UtcText.Format(at) : null);
}
