using System.Buffers.Binary;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Time;

namespace Cockpit.Tests.Clocks;

public sealed class SntpMessageTests
{
    private const ulong Mark = 0x0123_4567_89AB_CDEF;

    // RFC 4330, section 5: t = ((T2 - T1) + (T3 - T4)) / 2, d = (T4 - T1) - (T3 - T2); worked by hand.
    [Fact]
    public void Offset_and_delay_are_those_of_the_standard()
    {
        DateTimeOffset asked = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
        byte[] answer = Answer(asked.AddSeconds(2.040), asked.AddSeconds(2.050), dispersion: 0.25);
        SntpAnswer? read = SntpMessage.Read(answer, Mark, asked, TimeSpan.FromSeconds(0.070), out string? trouble);
        Assert.Null(trouble);
        Assert.Equal(2.010, read!.Value.Behind.TotalSeconds, 5);
        Assert.Equal(0.060, read.Value.Delay.TotalSeconds, 5);
        Assert.Equal(0.030 + 0.25, read.Value.Doubt.TotalSeconds, 4);
    }

    // RFC 4330, section 3: 2036-02-07 06:28:16 UTC is zero again.
    [Fact]
    public void After_the_end_of_the_era_in_2036_the_time_goes_on()
    {
        DateTimeOffset asked = new(2040, 1, 1, 0, 0, 0, TimeSpan.Zero);
        SntpAnswer? read = SntpMessage.Read(Answer(asked.AddSeconds(-1), asked.AddSeconds(-1)), Mark, asked, TimeSpan.Zero, out _);
        Assert.Equal(-1.0, read!.Value.Behind.TotalSeconds, 5);
    }

    [Theory]
    [InlineData(0, 0x23, "no time server")]
    [InlineData(0, 0xE4, "does not know the time")]
    [InlineData(1, 0, "asked less")]
    [InlineData(1, 16, "does not know the time")]
    [InlineData(24, 0xFF, "another question")]
    public void What_is_no_answer_to_go_by_says_why(int at, int value, string words)
    {
        DateTimeOffset asked = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
        byte[] answer = Answer(asked, asked);
        answer[at] = (byte)value;
        Assert.Null(SntpMessage.Read(answer, Mark, asked, TimeSpan.Zero, out string? trouble));
        Assert.Contains(words, trouble, StringComparison.Ordinal);
        Assert.Null(SntpMessage.Read(answer.AsSpan(0, 47), Mark, asked, TimeSpan.Zero, out trouble));
        Assert.Contains("too short", trouble, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ntp://127.0.0.1", "127.0.0.1", 123)]
    [InlineData("ntp://[::1]:4123", "::1", 4123)]
    [InlineData("ntp://time.example.org:123", "time.example.org", 123)]
    public void A_time_server_is_read_as_typed(string text, string host, int port)
    {
        Assert.True(TimeServerText.Read(text, "--clock").Try(out TimeServerText? server, out _));
        Assert.Equal((host, port), (server.Host, server.Port));
    }

    [Theory]
    [InlineData("time.example.org")]
    [InlineData("ntp://")]
    [InlineData("ntp://a/b")]
    [InlineData("ntp://host:99999")]
    [InlineData("http://host")]
    public void What_is_no_time_server_is_refused_with_the_form(string text)
    {
        Assert.False(TimeServerText.Read(text, "--clock").Try(out _, out ParseError? error));
        Assert.Contains(TimeServerText.Form, error.Message, StringComparison.Ordinal);
    }

    internal static byte[] Answer(DateTimeOffset received, DateTimeOffset sent, double dispersion = 0, ulong mark = Mark)
    {
        byte[] answer = new byte[SntpMessage.Length];
        answer[0] = 0x24;
        answer[1] = 2;
        BinaryPrimitives.WriteUInt32BigEndian(answer.AsSpan(8), (uint)(dispersion * 65536));
        BinaryPrimitives.WriteUInt64BigEndian(answer.AsSpan(24), mark);
        BinaryPrimitives.WriteUInt64BigEndian(answer.AsSpan(32), Stamp(received));
        BinaryPrimitives.WriteUInt64BigEndian(answer.AsSpan(40), Stamp(sent));
        return answer;
    }

    private static ulong Stamp(DateTimeOffset time)
    {
        double seconds = (time - new DateTimeOffset(1900, 1, 1, 0, 0, 0, TimeSpan.Zero)).TotalSeconds;
        return ((ulong)(uint)(ulong)seconds << 32) | (uint)((seconds - Math.Floor(seconds)) * 4294967296.0);
    }
}
