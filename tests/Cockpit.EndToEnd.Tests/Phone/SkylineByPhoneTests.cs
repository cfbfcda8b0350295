using System.Diagnostics;
using System.Globalization;
using System.Net.Security;
using System.Text;
using System.Text.Json;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>A phone teaches the skyline of a place through the page's own channel; the settings keep it.</summary>
public sealed class SkylineByPhoneTests
{
    [Fact]
    public async Task Set_by_a_landmark_and_panned_along_the_edge_the_phone_writes_the_skyline_into_the_settings()
    {
        using CockpitProcess cockpit = new();
        string settings = Path.Combine(cockpit.Folder, "settings.toml");
        await File.WriteAllTextAsync(settings, "version = 1\n# mine\n[[places]]\nname = \"meadow\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\naltitude_m = 520\nlandmarks = \"mast=47.81,11.2,520\"\n");
        using Process process = cockpit.Start("skyline", "teach", "meadow", "--phone", "127.0.0.1:0", "--settings", settings);
        string address = (await process.StandardOutput.ReadLineAsync())!["phone ".Length..];
        using SocketsHttpHandler handler = new() { SslOptions = new SslClientAuthenticationOptions { RemoteCertificateValidationCallback = PhoneClient.Trusts } };
        using HttpClient phone = new(handler) { BaseAddress = new Uri(address), Timeout = TimeSpan.FromSeconds(20) };
        phone.DefaultRequestHeaders.Add("Origin", new Uri(address).GetLeftPart(UriPartial.Authority));
        string paired = await Paired(phone);
        string key = JsonDocument.Parse(paired).RootElement.GetProperty("key").GetString()!;
        async Task Tell(string message) => await Say(phone, $$"""{"key":"{{key}}","m":[{{message}}]}""");

        // Whatever is up is offered; the mast, due north, comes when it is asked for.
        string note = "";
        _ = Follow(phone, key, next => note = next);
        for (int i = 0; i < 60 && !note.Contains("mast", StringComparison.Ordinal); i++)
        {
            await Tell(Turned(i, 40.0, 90.0));
            await Task.Delay(150);
            await process.StandardInput.WriteLineAsync(note.Contains("point the dish at", StringComparison.Ordinal) && !note.Contains("mast", StringComparison.Ordinal) ? "another" : "");
            await Task.Delay(150);
        }

        await Tell("""{"t":"press","key":"here","n":1}""");
        string? said = await process.StandardOutput.ReadLineAsync();
        Assert.StartsWith("set by mast: ", said, StringComparison.Ordinal);
        await Tell(Turned(99, 42.0, 91.0));
        await Task.Delay(150);
        await Tell("""{"t":"press","key":"here","n":2}""");
        await Task.Delay(150);
        for (int step = 1; step <= 12; step++)
        {
            await Tell(Turned(100 + step, 42.0 - (2 * step), 91.0 + step));
            await Task.Delay(60);
        }

        await Task.Delay(200);
        process.StandardInput.Close();
        string rest = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(20));
        Assert.Equal(0, process.ExitCode);
        Assert.DoesNotContain(key, rest, StringComparison.Ordinal);
        string kept = await File.ReadAllTextAsync(settings);
        Assert.Contains("# mine", kept, StringComparison.Ordinal);

        // From the mast, due north, eastward: two degrees of the pan for one of the height.
        Assert.Contains("skyline = \"0:2,5:4.5,10:7,15:9.5,20:12\"", kept, StringComparison.Ordinal);
    }

    private static string Turned(int number, double alpha, double beta) => string.Create(
        CultureInfo.InvariantCulture, $$"""{"t":"o","n":{{number}},"kind":"abs","a":{{alpha}},"b":{{beta}},"g":0,"age":5,"screen":0,"shaking":false}""");

    /// <summary>The address is told at once; the server answers a moment later.</summary>
    private static async Task<string> Paired(HttpClient phone)
    {
        for (int tries = 0; ; tries++)
        {
            try
            {
                return await Say(phone, """{"t":"hello","key":""}""");
            }
            catch (HttpRequestException) when (tries < 100)
            {
                await Task.Delay(100);
            }
        }
    }

    private static async Task<string> Say(HttpClient phone, string body)
    {
        using StringContent content = new(body, Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await phone.PostAsync(new Uri("say", UriKind.Relative), content);
        Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode}: {body}");
        return await answer.Content.ReadAsStringAsync();
    }

    /// <summary>Reads the guidance that the phone is given, as long as it comes.</summary>
    private static async Task Follow(HttpClient phone, string key, Action<string> noted)
    {
        using HttpResponseMessage answer = await phone.GetAsync(new Uri($"hear/{key}", UriKind.Relative), HttpCompletionOption.ResponseHeadersRead);
        using StreamReader lines = new(await answer.Content.ReadAsStreamAsync());
        while (await lines.ReadLineAsync() is { } line)
        {
            if (line.StartsWith("data: ", StringComparison.Ordinal) && JsonDocument.Parse(line[6..]).RootElement is var said && said.TryGetProperty("note", out JsonElement note))
            {
                noted(note.GetString() ?? "");
            }
        }
    }
}
