namespace Cockpit.Devices.Journal;

/// <summary>The 32-bit cyclic redundancy check of IEEE 802.3: reflected polynomial 0xEDB88320, start and final inversion.</summary>
/// <remarks>Source: IEEE Std 802.3-2018, 3.2.9. The check value of "123456789" is 0xCBF43926.</remarks>
public static class Crc32
{
    private const uint Polynomial = 0xEDB88320;

    private static readonly uint[] Table = MakeTable();

    /// <summary>The check of these bytes.</summary>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte value in bytes)
        {
            crc = Table[(byte)(crc ^ value)] ^ (crc >> 8);
        }

        return ~crc;
    }

    private static uint[] MakeTable()
    {
        uint[] table = new uint[256];
        for (uint i = 0; i < table.Length; i++)
        {
            uint value = i;
            for (int bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? Polynomial ^ (value >> 1) : value >> 1;
            }

            table[i] = value;
        }

        return table;
    }
}
