using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>Whom a page behind https is believed to come from: who has a certificate that the system trusts, or the one that a person gave.</summary>
internal sealed class PageTrust : IDisposable
{
    private const long MostBytes = 1 << 20;

    private readonly X509Certificate2? _given;

    private PageTrust(X509Certificate2? given) => _given = given;

    /// <summary>Why the last certificate was refused, to be read behind "the certificate of HOST "; null where none was.</summary>
    public string? Refusal { get; private set; }

    /// <summary>Reads the certificate that a person gave.</summary>
    /// <param name="path">A file, PEM or DER; null where the system decides.</param>
    /// <param name="source">What the path belongs to, for the error.</param>
    public static Parsed<PageTrust> Read(string? path, string source)
    {
        if (path is null)
        {
            return new PageTrust(null);
        }

        try
        {
            if (new FileInfo(path) is { Exists: true, Length: > MostBytes })
            {
                return new ParseError(path, 0, 0, "the file is larger than 1 MiB; give the certificate of the page, as PEM or DER");
            }

            return new PageTrust(X509CertificateLoader.LoadCertificateFromFile(path));
        }
        catch (CryptographicException) when (File.Exists(path))
        {
            return new ParseError(path, 0, 0, "there is no certificate in it; give the one of the page, or of who signed it, as PEM or DER");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or CryptographicException)
        {
            return new ParseError(source, 0, 0, $"the certificate {Quoted.Of(path)} cannot be read: {(File.Exists(path) ? FileWords.Of(failure) : "there is no such file")}");
        }
    }

    /// <summary>How a connection is checked.</summary>
    public SslClientAuthenticationOptions Options() => new()
    {
        RemoteCertificateValidationCallback = (_, _, _, errors) => Accepts(errors),
        CertificateChainPolicy = _given is null ? null : new X509ChainPolicy
        {
            TrustMode = X509ChainTrustMode.CustomRootTrust,
            CustomTrustStore = { _given },
            RevocationMode = X509RevocationMode.NoCheck,
        },
    };

    /// <inheritdoc/>
    public void Dispose() => _given?.Dispose();

    private bool Accepts(SslPolicyErrors errors)
    {
        Refusal = errors.HasFlag(SslPolicyErrors.RemoteCertificateNotAvailable) ? "is missing"
            : errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch) ? "is made out to another name; give the address by that name"
            : errors == SslPolicyErrors.None ? null
            : _given is null ? "is not trusted by this computer; if you trust it, add its file to the address: ?certificate=FILE"
            : "is neither the one given nor signed by it, or its time is over";
        return errors == SslPolicyErrors.None;
    }
}
