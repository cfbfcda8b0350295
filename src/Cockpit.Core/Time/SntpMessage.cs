using System.Buffers.Binary;

namespace Cockpit.Core.Time;

/// <summary>What an answer of a time server says.</summary>
/// <param name="Behind">What is to be added to this computer's clock; positive = it is behind.</param>
/// <param name="Delay">How long question and answer were under way.</param>
/// <param name="Doubt">How far <paramref name="Behind"/> may be off.</param>
public readonly record struct SntpAnswer(TimeSpan Behind, TimeSpan Delay, TimeSpan Doubt);

/// <summary>Question to a time server and its answer. Pure.</summary>
/// <remarks>Source: RFC 4330 (SNTP version 4), sections 4 and 5; the era of a timestamp by section 3: a first bit of 0 means 2036 to 2104.</remarks>
public static class SntpMessage
{
    /// <summary>Bytes of a question, and of an answer without extensions.</summary>
    public const int Length = 48;

    // No leap warning, version 4, client.
    private const byte Question = 0x23;
    private const int ServerMode = 4;
    private const int NoClock = 3;
    private const int LastStratum = 15;
    private const int Originate = 24, Receive = 32, Transmit = 40, RootDispersion = 8;

    private static readonly DateTimeOffset FirstEra = new(1900, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset SecondEra = FirstEra.AddSeconds(4294967296.0);

    /// <summary>Writes a question.</summary>
    /// <param name="to">48 bytes.</param>
    /// <param name="mark">Comes back in the answer and belongs to this question alone.</param>
    public static void Ask(Span<byte> to, ulong mark)
    {
        to[..Length].Clear();
        to[0] = Question;
        BinaryPrimitives.WriteUInt64BigEndian(to[Transmit..], mark);
    }

    /// <summary>Reads an answer.</summary>
    /// <param name="answer">As it came.</param>
    /// <param name="mark">Of the question.</param>
    /// <param name="asked">When it was asked, by this computer.</param>
    /// <param name="passed">How long the answer took, by a clock that nobody sets.</param>
    /// <param name="trouble">Why it is no answer to go by, for people; null when it is one.</param>
    /// <returns>Null where there is trouble.</returns>
    public static SntpAnswer? Read(ReadOnlySpan<byte> answer, ulong mark, DateTimeOffset asked, TimeSpan passed, out string? trouble)
    {
        trouble = Trouble(answer, mark);
        if (trouble is not null)
        {
            return null;
        }

        DateTimeOffset received = TimeAt(answer, Receive);
        DateTimeOffset sent = TimeAt(answer, Transmit);
        TimeSpan behind = ((received - asked) + (sent - (asked + passed))) / 2;
        TimeSpan delay = passed - (sent - received);
        double dispersion = BinaryPrimitives.ReadUInt32BigEndian(answer[RootDispersion..]) / 65536.0;
        return new SntpAnswer(behind, delay, (delay / 2) + TimeSpan.FromSeconds(dispersion));
    }

    private static string? Trouble(ReadOnlySpan<byte> answer, ulong mark) =>
        answer.Length < Length ? "the answer is too short for a time server's"
        : (answer[0] & 7) != ServerMode ? "what answers there is no time server"
        : answer[0] >> 6 == NoClock ? "the time server does not know the time itself"
        : answer[1] == 0 ? "the time server wants to be asked less, or not at all"
        : answer[1] > LastStratum ? "the time server does not know the time itself"
        : BinaryPrimitives.ReadUInt64BigEndian(answer[Originate..]) != mark ? "the answer belongs to another question"
        : BinaryPrimitives.ReadUInt64BigEndian(answer[Transmit..]) == 0 ? "the answer holds no time"
        : null;

    private static DateTimeOffset TimeAt(ReadOnlySpan<byte> answer, int at)
    {
        uint seconds = BinaryPrimitives.ReadUInt32BigEndian(answer[at..]);
        uint fraction = BinaryPrimitives.ReadUInt32BigEndian(answer[(at + 4)..]);
        return (seconds < 0x8000_0000 ? SecondEra : FirstEra) + TimeSpan.FromSeconds(seconds) + TimeSpan.FromTicks((long)(fraction / 4294967296.0 * TimeSpan.TicksPerSecond));
    }
}
