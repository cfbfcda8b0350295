using Cockpit.Devices.Ports;

namespace Cockpit.Tests.Feeds;

public sealed class SecureLibraryTests
{
    [Theory]
    [InlineData("libssl.so.3")]
    [InlineData("libssl.so.1.1")]
    public void Any_version_that_the_runtime_takes_will_do(string there) => Assert.Null(SecureLibrary.Sentence(name => string.Equals(name, there, StringComparison.Ordinal)));

    [Fact]
    public void Without_one_a_sentence_says_what_to_install() =>
        Assert.Equal("https needs OpenSSL, and libssl is missing on this computer; on Debian install libssl3", SecureLibrary.Sentence(_ => false));
}
