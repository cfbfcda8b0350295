using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Cockpit.Core.Formats;
using Cockpit.Devices.Feeds;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A page behind TLS, from a real server in this process with certificates made by the test.</summary>
public sealed class SecurePageTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-tls-");
    private readonly EventWait _events = new();

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task A_certificate_that_nobody_trusts_is_refused_in_one_sentence_and_accepted_when_its_file_is_given()
    {
        using X509Certificate2 certificate = Made("127.0.0.1");
        await using WebServer server = WebServer.StartSecure(_ => WebServer.Answer("200 OK", "{\"snr\":7.4}"), certificate);
        await using (LineFeed refused = SignalFeeds.Started(server.Url, _events))
        {
            Assert.Equal($"the certificate of {server.Place} is not trusted by this computer; if you trust it, add its file to the address: ?certificate=FILE; it is tried again", _events.Next<FeedLost>().Reason);
        }

        foreach (string form in new[] { "pem", "der" })
        {
            EventWait trusted = new();
            await using LineFeed feed = SignalFeeds.Started($"{server.Url}?certificate={Kept(certificate, form)}", trusted);
            Assert.Equal(server.Url, trusted.Next<FeedConnected>().Where);
            Assert.Equal(7.4, trusted.Next<SignalMeasured>().Sample.SnrDb);
        }
    }

    [Fact]
    public async Task Another_certificate_another_name_and_one_that_is_over_are_refused()
    {
        using X509Certificate2 certificate = Made("127.0.0.1");
        using X509Certificate2 other = Made("127.0.0.1");
        using X509Certificate2 elsewhere = Made("192.0.2.7");
        using X509Certificate2 over = Made("127.0.0.1", lastDay: -1);
        await RefusedAsync(certificate, given: other, "is neither the one given nor signed by it, or its time is over");
        await RefusedAsync(elsewhere, given: elsewhere, "is made out to another name; give the address by that name");
        await RefusedAsync(over, given: over, "is neither the one given nor signed by it, or its time is over");
    }

    [Fact]
    public void A_file_that_is_no_certificate_and_one_for_a_page_without_TLS_are_refused_before_the_pass()
    {
        string text = Path.Combine(_folder.FullName, "text.pem");
        File.WriteAllText(text, "snr=7");
        Assert.Equal($"{text}: there is no certificate in it; give the one of the page, or of who signed it, as PEM or DER", Refusal($"https://127.0.0.1:1/now?certificate={text}"));
        Assert.Equal("--signal: the certificate '/nowhere.pem' cannot be read: there is no such file", Refusal("https://127.0.0.1:1/now?certificate=/nowhere.pem"));
        Assert.Equal("--signal: a certificate is for https only; write https://HOST:PORT/PATH?certificate=FILE", Refusal($"http://127.0.0.1:1/now?certificate={text}"));
        Assert.Equal("--signal: a certificate is for https only; write https://HOST:PORT/PATH?certificate=FILE", Refusal($"tcp://127.0.0.1:1?certificate={text}"));
    }

    private static string? Refusal(string address)
    {
        Assert.Null(LineAddress.Read(address, "--signal").Value!.MakePort("--signal", TimeProvider.System, out ParseError? error));
        return error?.ToString();
    }

    private async Task RefusedAsync(X509Certificate2 shown, X509Certificate2 given, string why)
    {
        await using WebServer server = WebServer.StartSecure(_ => WebServer.Answer("200 OK", "snr=7"), shown);
        await using LineFeed feed = SignalFeeds.Started($"{server.Url}?certificate={Kept(given, "pem")}", _events);
        Assert.Equal($"the certificate of {server.Place} {why}; it is tried again", _events.Next<FeedLost>().Reason);
    }

    private string Kept(X509Certificate2 certificate, string form)
    {
        string path = Path.Combine(_folder.FullName, $"{certificate.Thumbprint}.{form}");
        File.WriteAllBytes(path, form is "der" ? certificate.Export(X509ContentType.Cert) : System.Text.Encoding.ASCII.GetBytes(certificate.ExportCertificatePem()));
        return path;
    }

    private static X509Certificate2 Made(string address, int lastDay = 30)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new($"CN={address}", key, HashAlgorithmName.SHA256);
        SubjectAlternativeNameBuilder names = new();
        names.AddIpAddress(IPAddress.Parse(address));
        request.CertificateExtensions.Add(names.Build());
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        using X509Certificate2 made = request.CreateSelfSigned(now.AddDays(-30), now.AddDays(lastDay));

        // With its key in a form that the TLS of every system takes.
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pkcs12), null);
    }
}
