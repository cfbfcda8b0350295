using System.Text;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Tests.Formats.Recordings;

public sealed class SampleOptionsTests
{
    [Fact]
    public void Every_option_is_read()
    {
        Assert.True(SampleOptions.Split("file:/a b/x?y.bin?format=cs16&rate=3Msps&center=1701.3MHz&start=2026-11-25T12:00:00Z&skip=12&order=qi&from=end", "--signal")
            .Try(out (string Address, SampleOptions Options) read, out ParseError? error), error?.Message);

        Assert.Equal("file:/a b/x?y.bin", read.Address);
        Assert.Equal(
            new SampleOptions(SampleFormat.Ci16Le, 3e6, 1_701_300_000, new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero), 12, true, true),
            read.Options);
    }

    [Fact]
    public void An_address_may_have_no_options() =>
        Assert.Equal(("tcp://127.0.0.1:1234", new SampleOptions()), SampleOptions.Split("tcp://127.0.0.1:1234", "x").Value);

    [Theory]
    [InlineData("file:a?format=mp3", "'mp3' is not a sample format")]
    [InlineData("file:a?rate=12", "'12' is not a sample rate")]
    [InlineData("file:a?rate=3,0e6", "is not a sample rate")]
    [InlineData("file:a?center=-1", "is not a centre frequency")]
    [InlineData("file:a?colour=red", "'colour' is not an option of samples")]
    [InlineData("file:a?skip=99999999999", "is not a number of bytes")]
    public void A_bad_option_is_told(string address, string words)
    {
        Assert.False(SampleOptions.Split(address, "--signal").Try(out _, out ParseError? error));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_description_is_read()
    {
        SampleLayout layout = Assert.IsType<SampleLayout>(SigmfMeta.Read(Encoding.UTF8.GetBytes(
            """
            {"global":{"core:datatype":"ci16_le","core:sample_rate":3000000.0,"core:version":"1.0.0"},
             "captures":[{"core:sample_start":0,"core:frequency":1701300000.0,"core:datetime":"2026-11-25T12:00:00Z","core:header_bytes":64}],"annotations":[]}
            """), "a.sigmf-meta").Value);

        Assert.Equal(new SampleLayout(SampleFormat.Ci16Le, 3e6, 64, null, 1_701_300_000, new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero)), layout);
    }

    [Theory]
    [InlineData("{", "not the JSON")]
    [InlineData("[]", "no object \"global\"")]
    [InlineData("""{"global":{"core:datatype":"rf32_le","core:sample_rate":3e6}}""", "is real")]
    [InlineData("""{"global":{"core:datatype":"ci16_le"}}""", "core:sample_rate")]
    [InlineData("""{"global":{"core:datatype":"ci16_le","core:sample_rate":3e6,"core:num_channels":2}}""", "more than one channel")]
    public void A_bad_description_is_told(string json, string words)
    {
        Assert.False(SigmfMeta.Read(Encoding.UTF8.GetBytes(json), "a.sigmf-meta").Try(out _, out ParseError? error));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
    }
}
