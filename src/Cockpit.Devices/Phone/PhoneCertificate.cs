using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Phone;

/// <summary>The certificate by which the phone knows this computer again: made here once, and kept, because a changed one breaks the page without a word.</summary>
/// <remarks>ECDSA P-256 with SHA-256, the address as its subject's alternative name, server authentication, two years (phones take up to 825 days).</remarks>
internal static class PhoneCertificate
{
    /// <summary>Name of its file.</summary>
    public const string FileName = "certificate.pfx";

    /// <summary>A certificate is made anew when it ends sooner.</summary>
    public static readonly TimeSpan LeastLeft = TimeSpan.FromDays(30);

    private static readonly TimeSpan Lasts = TimeSpan.FromDays(800);
    private static readonly TimeSpan ClocksMayDiffer = TimeSpan.FromDays(1);
    private const int LongestFile = 64 * 1024;
    private const string ServerAuthentication = "1.3.6.1.5.5.7.3.1";
    private const X509KeyStorageFlags Flags = X509KeyStorageFlags.Exportable;

    /// <summary>The certificate that is kept, if it is good for the address; else a new one that is good for all of the old one's addresses too.</summary>
    /// <param name="folder">Where it is kept; made when it is not there. Null = nowhere.</param>
    /// <param name="address">Of this computer.</param>
    /// <param name="now">UTC.</param>
    /// <param name="note">One sentence where something has to be told; null where all is well.</param>
    public static X509Certificate2 Get(string? folder, IPAddress address, DateTimeOffset now, out string? note)
    {
        note = null;
        string? path = folder is null ? null : Path.Combine(folder, FileName);
        X509Certificate2? kept = path is null ? null : Load(path, out note);
        if (kept is not null && AddressesOf(kept).Contains(address) && kept.NotAfter.ToUniversalTime() - now.UtcDateTime > LeastLeft && kept.NotBefore.ToUniversalTime() <= now.UtcDateTime)
        {
            return kept;
        }

        IPAddress[] addresses = [address, .. (kept is null ? [] : AddressesOf(kept)).Where(other => !other.Equals(address)).Take(MostAddresses - 1)];
        kept?.Dispose();
        byte[] made = Make(addresses, now);
        try
        {
            if (path is not null)
            {
                OwnedFile.Write(path, made);
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            note = $"{path}: {FileWords.Of(failure)}; the certificate is not kept, so the phone will ask about it again next time";
        }

        return X509CertificateLoader.LoadPkcs12(made, null, Flags);
    }

    private const int MostAddresses = 8;

    /// <summary>The addresses that a certificate is good for.</summary>
    public static IPAddress[] AddressesOf(X509Certificate2 certificate) =>
        certificate.Extensions.OfType<X509SubjectAlternativeNameExtension>().FirstOrDefault() is { } names ? [.. names.EnumerateIPAddresses()] : [];

    private static X509Certificate2? Load(string path, out string? note)
    {
        note = null;
        try
        {
            if (OwnedFile.Read(path, LongestFile) is not { } bytes)
            {
                return null;
            }

            if (OwnedFile.IsOpenToOthers(path))
            {
                note = $"{path} could be read by others; a new certificate is made, and the phone will ask about it once more";
                return null;
            }

            X509Certificate2 certificate = X509CertificateLoader.LoadPkcs12(bytes, null, Flags);
            if (certificate.HasPrivateKey)
            {
                return certificate;
            }

            certificate.Dispose();
            note = $"{path} holds no key; a new certificate is made, and the phone will ask about it once more";
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or CryptographicException)
        {
            note = $"{path} is damaged or cannot be read; a new certificate is made, and the phone will ask about it once more";
        }

        return null;
    }

    /// <summary>Made and exported: only as read back from PKCS#12 its key works for TLS on every system.</summary>
    private static byte[] Make(IPAddress[] addresses, DateTimeOffset now)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=Cockpit phone page", key, HashAlgorithmName.SHA256);
        SubjectAlternativeNameBuilder names = new();
        foreach (IPAddress address in addresses)
        {
            names.AddIpAddress(address);
        }

        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(ServerAuthentication)], critical: false));
        using X509Certificate2 made = request.CreateSelfSigned(now - ClocksMayDiffer, now - ClocksMayDiffer + Lasts);
        return made.Export(X509ContentType.Pfx);
    }
}
