using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>One piece of the band.</summary>
/// <param name="Big">In block letters.</param>
/// <param name="Unit">Beside them, in plain letters.</param>
/// <param name="Slot">Letters that its place is kept for, so that the pieces after it do not move.</param>
internal readonly record struct BandPiece(string Big, string Unit, string Slot)
{
    /// <summary>Columns that it fills when a dot is so many cells wide.</summary>
    public int Width(int dot) => (Math.Max(BigLetters.Width(Big), BigLetters.Width(Slot)) * dot) + (Unit.Length == 0 ? 0 : Unit.Length + 1);
}

/// <summary>The banner in pieces that are painted one beside the other: word, sideways, upwards, time left.</summary>
internal static class BandPieces
{
    private const string WordSlot = "NEXT";
    private const string MoveSlot = "▲10";
    private const string TimeSlot = "10";

    /// <summary>The pieces; the word is always the first.</summary>
    public static ImmutableArray<BandPiece> Of(Banner banner, Snapshot now) => now.Aim.Word switch
    {
        AimWord.Point => Point(now),
        AimWord.Done => [new(banner.Word, "", "")],
        _ => Moves(banner),
    };

    private static ImmutableArray<BandPiece> Moves(Banner banner)
    {
        var pieces = ImmutableArray.CreateBuilder<BandPiece>(4);
        pieces.Add(new BandPiece(banner.Word, "", WordSlot));
        if (banner is { Side: 0, Lift: 0 })
        {
            return pieces.ToImmutable();
        }

        pieces.Add(Move(banner.Side, Banner.Arrow(banner.Side, Arrows.Left, Arrows.Right), HandUnits.SideUnit(banner.Mount)));
        pieces.Add(Move(banner.Lift, Banner.Arrow(banner.Lift, Arrows.Down, Arrows.Up), HandUnits.LiftUnit(banner.Mount)));
        if (banner.Countdown is { } left)
        {
            pieces.Add(new BandPiece(left.Number, left.Unit, TimeSlot));
        }

        return pieces.ToImmutable();
    }

    private static BandPiece Move(int degrees, char arrow, string unit) => degrees == 0
        ? new BandPiece("", new string(' ', unit.Length), MoveSlot)
        : new BandPiece(string.Create(CultureInfo.InvariantCulture, $"{arrow}{Math.Abs(degrees)}"), unit, MoveSlot);

    /// <summary>Where to set up: azimuth from true north, or as the compass reads it where the operator works by one.</summary>
    private static ImmutableArray<BandPiece> Point(Snapshot now)
    {
        if (now.Aim.Target is not { } target)
        {
            return [new("POINT", "", "POINT")];
        }

        Angle? declination = now.Settings is { NorthByCompass: true } settings ? settings.MagneticDeclination : null;
        Angle azimuth = (target.Azimuth - (declination ?? Angle.Zero)).WrappedToTurn();
        return
        [
            new("POINT", "", "POINT"),
            new((Whole(azimuth) % 360).ToString("000", CultureInfo.InvariantCulture), declination is null ? "az" : "mag", "000"),
            new($"{Arrows.Up}{Whole(target.Elevation).ToString(CultureInfo.InvariantCulture)}", "el", MoveSlot),
        ];
    }

    private static int Whole(Angle angle) => (int)Math.Round(angle.Degrees, MidpointRounding.AwayFromZero);
}
