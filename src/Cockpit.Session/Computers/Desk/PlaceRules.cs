using Cockpit.Core.Geo;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>Compares the place that a receiver tells with the station of the session. Pure.</summary>
internal static class PlaceRules
{
    /// <summary>A receiver that has just found its satellites jumps about for seconds: so many places in a row must be far.</summary>
    private const int Enough = 5;

    public static DeskMemory Fixed(DeskMemory memory, PlaceFixed place, Site station)
    {
        double metres = Geodesic.Between(station, new Site(place.Latitude, place.Longitude, 0)).DistanceMetres;
        int far = metres > PlaceNow.ToleranceMetres && metres > (place.DoubtMetres ?? 0) ? Math.Min(memory.FarInARow + 1, Enough) : 0;
        return memory with { FarInARow = far, Now = memory.Now with { Place = new PlaceNow(place.Latitude, place.Longitude, place.HeightMetres, metres, far >= Enough) } };
    }
}
