using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>One piece of the band.</summary>
/// <param name="Big">In block letters.</param>
/// <param name="Words">The same in words.</param>
/// <param name="Slot">Letters that its place is kept for, so that the pieces after it do not move.</param>
internal readonly record struct BandPiece(string Big, string Words, string Slot);

/// <summary>The banner in pieces that are painted one beside the other: word, sideways, upwards, seconds.</summary>
internal static class BandPieces
{
    private const string WordSlot = "NEXT";
    private const string MoveSlot = "▲10";

    public static ImmutableArray<BandPiece> Of(Banner banner, Snapshot now, Banner then) => now.Aim.Word switch
    {
        AimWord.Point => Point(now),
        AimWord.Done => [Word(banner, "the pass is over")],
        _ => Moves(banner, then),
    };

    /// <summary>The same in a few short lines.</summary>
    public static ImmutableArray<string> Caption(Banner banner, Snapshot now, Banner then) => now.Aim.Word switch
    {
        AimWord.Point => [.. Point(now).SelectMany(piece => piece.Words.Split(", ")).Where(line => line.Length > 0)],
        AimWord.Done => [banner.Word, "the pass is over"],
        AimWord.Hold => then.Side is null && then.Lift is null ? [banner.Word] : ["HOLD, then", .. Lines(then)],
        _ => [Words(banner), .. Lines(banner)],
    };

    private static string Words(Banner banner) => banner is { Role: Role.Next, Seconds: { } s }
        ? string.Create(CultureInfo.InvariantCulture, $"{banner.Word} in {s} s")
        : banner.Word;

    private static BandPiece Word(Banner banner, string words) => new(banner.Word, words, WordSlot);

    private static ImmutableArray<BandPiece> Moves(Banner banner, Banner then)
    {
        var pieces = ImmutableArray.CreateBuilder<BandPiece>(4);
        pieces.Add(Word(banner, Words(banner)));
        if (banner.Role != Role.Hold)
        {
            pieces.Add(Move(banner.Side, banner.SideArrow));
            pieces.Add(Move(banner.Lift, banner.LiftArrow));
        }

        if (banner.Seconds is { } s and < 100)
        {
            pieces.Add(new BandPiece(string.Create(CultureInfo.InvariantCulture, $"{s}s"), banner.Role == Role.Hold ? string.Join(' ', ["until the next nudge:", .. Lines(then)]) : "to go", "10s"));
        }

        return pieces.ToImmutable();
    }

    /// <summary>What counts while the dish is swept: the level against expectation, or as it is.</summary>
    private static BandPiece Level(Snapshot now)
    {
        LinkNow link = now.Link;
        double? value = link.MeasuredDb - (link.ExpectedDb ?? 0.0);
        string trend = link.MeasuredDb is null ? "no signal" : LevelPanel.Trend(link) ?? "steady";
        return new BandPiece(
            Figures.Of(value, 0, 1, signed: link.ExpectedDb is not null),
            $"{(link.ExpectedDb is null ? $"{link.Quantity?.Symbol() ?? "level"} dB" : "dB off")}, {trend}",
            "-10.0");
    }

    private static BandPiece Move(string? figure, char arrow) => figure is null
        ? new BandPiece("", "", MoveSlot)
        : new BandPiece($"{arrow}{figure[(figure.LastIndexOf(' ') + 1)..]}", figure, MoveSlot);

    private static ImmutableArray<BandPiece> Point(Snapshot now)
    {
        if (now.Aim.Target is not { } target)
        {
            return [new BandPiece("POINT", "no pass is known", "POINT")];
        }

        Angle azimuth = target.Azimuth.WrappedToTurn();
        string magnetic = now.Settings?.MagneticDeclination is { } declination
            ? $", magnetic  {Figures.Azimuth((target.Azimuth - declination).WrappedToTurn().Degrees)}"
            : "";
        return
        [
            new BandPiece("POINT", "", "POINT"),
            new BandPiece($"{(Whole(azimuth) % 360).ToString("000", CultureInfo.InvariantCulture)}", $"azimuth   {Figures.Azimuth(azimuth.Degrees)}{magnetic}", "000"),
            new BandPiece($"{Arrows.Up}{Whole(target.Elevation).ToString(CultureInfo.InvariantCulture)}", $"elevation {Figures.Of(target.Elevation.Degrees, 5, 1)}", "▲10"),
        ];
    }

    private static IEnumerable<string> Lines(Banner banner)
    {
        if (banner.Side is not null)
        {
            yield return $"{banner.SideArrow} {banner.Side}";
        }

        if (banner.Lift is not null)
        {
            yield return $"{banner.LiftArrow} {banner.Lift}";
        }
    }

    private static int Whole(Angle angle) => (int)Math.Round(angle.Degrees, MidpointRounding.AwayFromZero);
}
