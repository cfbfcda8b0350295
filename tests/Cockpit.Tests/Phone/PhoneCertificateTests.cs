using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Cockpit.Devices.Phone;

namespace Cockpit.Tests.Phone;

public sealed class PhoneCertificateTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 11, 26, 17, 0, 0, TimeSpan.Zero);
    private static readonly IPAddress Here = IPAddress.Parse("192.0.2.17");
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-certificate-");

    private string FilePath => Path.Combine(_folder.FullName, PhoneCertificate.FileName);

    public void Dispose() => _folder.Delete(recursive: true);

    // What phones demand: Apple, "Requirements for trusted certificates in iOS 13", and CA/Browser Forum, Baseline Requirements 6.3.2 (825 days).
    [Fact]
    public void It_is_what_phones_take_and_only_its_owner_can_read_it()
    {
        using X509Certificate2 made = PhoneCertificate.Get(_folder.FullName, Here, Now, out string? note);
        Assert.Null(note);
        Assert.Equal([Here], PhoneCertificate.AddressesOf(made));
        Assert.Equal("1.3.6.1.5.5.7.3.1", Assert.Single(made.Extensions.OfType<X509EnhancedKeyUsageExtension>().Single().EnhancedKeyUsages.Cast<Oid>()).Value);
        Assert.InRange((made.NotAfter - made.NotBefore).TotalDays, 400, 825);
        Assert.Equal("1.2.840.10045.4.3.2", made.SignatureAlgorithm.Value);
        using ECDsa key = made.GetECDsaPrivateKey()!;
        Assert.Equal(256, key.KeySize);
        Assert.False(made.Extensions.OfType<X509BasicConstraintsExtension>().Single().CertificateAuthority);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(FilePath));
        }
    }

    [Fact]
    public void It_is_kept_while_it_is_good_and_stays_good_for_the_networks_before()
    {
        using X509Certificate2 first = PhoneCertificate.Get(_folder.FullName, Here, Now, out _);
        using X509Certificate2 again = PhoneCertificate.Get(_folder.FullName, Here, Now.AddDays(768), out _);
        Assert.Equal(first.Thumbprint, again.Thumbprint);

        using X509Certificate2 elsewhere = PhoneCertificate.Get(_folder.FullName, IPAddress.Parse("fd00::7"), Now.AddDays(1), out _);
        Assert.NotEqual(first.Thumbprint, elsewhere.Thumbprint);
        using X509Certificate2 home = PhoneCertificate.Get(_folder.FullName, Here, Now.AddDays(2), out string? note);
        Assert.Equal(elsewhere.Thumbprint, home.Thumbprint);
        Assert.Null(note);

        using X509Certificate2 late = PhoneCertificate.Get(_folder.FullName, Here, Now.AddDays(1 + 770), out _);
        Assert.NotEqual(elsewhere.Thumbprint, late.Thumbprint);
        Assert.Equal([FilePath], _folder.GetFiles().Select(file => file.FullName));
    }

    [Theory]
    [InlineData(14)]
    [InlineData(100_000)]
    public void A_damaged_one_is_told_and_made_anew_and_so_is_one_that_others_could_read(int letters)
    {
        File.WriteAllText(FilePath, new string('x', letters));
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(FilePath, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        using X509Certificate2 made = PhoneCertificate.Get(_folder.FullName, Here, Now, out string? note);
        Assert.Equal($"{FilePath} is damaged or cannot be read; a new certificate is made, and the phone will ask about it once more", note);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(FilePath, UnixFileMode.UserRead | UnixFileMode.GroupRead);
            using X509Certificate2 other = PhoneCertificate.Get(_folder.FullName, Here, Now, out note);
            Assert.Equal($"{FilePath} could be read by others; a new certificate is made, and the phone will ask about it once more", note);
            Assert.NotEqual(made.Thumbprint, other.Thumbprint);
        }

        using X509Certificate2 kept = PhoneCertificate.Get(_folder.FullName, Here, Now, out note);
        Assert.Null(note);
    }

    [Fact]
    public void Where_it_cannot_be_kept_the_page_is_offered_all_the_same_and_it_is_told()
    {
        string file = Path.Combine(_folder.FullName, "in-the-way");
        File.WriteAllText(file, "");
        using X509Certificate2 made = PhoneCertificate.Get(Path.Combine(file, "phone"), Here, Now, out string? note);
        Assert.True(made.HasPrivateKey);
        Assert.EndsWith("the certificate is not kept, so the phone will ask about it again next time", note, StringComparison.Ordinal);
    }
}
