using Cockpit.Devices.Phone;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Phone;

public sealed class PhonePairingTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-paired-");
    private readonly FakeTimeProvider _time = new(new DateTimeOffset(2026, 11, 26, 17, 0, 0, TimeSpan.Zero));

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void A_token_has_80_bits_pairs_once_and_is_dead_afterwards()
    {
        PhonePairing pairing = new(null, _time);
        Assert.Matches("^[A-Z2-7]{16}$", pairing.Token);
        Assert.Null(pairing.Pair(pairing.Token.ToLowerInvariant()));
        string? key = pairing.Pair(pairing.Token);
        Assert.Matches("^[A-Z2-7]{25}$", key);
        Assert.True(pairing.IsPaired(key!));
        Assert.Null(pairing.Pair(pairing.Token));
        Assert.True(pairing.Knows(pairing.Token), "the page is loaded again under it");
        Assert.Equal(2, pairing.Wrong);
    }

    [Fact]
    public void A_new_phone_needs_a_new_token_and_the_key_of_the_one_before_is_dead()
    {
        PhonePairing pairing = new(null, _time);
        string first = pairing.Token;
        string old = pairing.Pair(first)!;
        string second = pairing.NewToken();
        Assert.NotEqual(first, second);
        Assert.Null(pairing.Pair(first));
        Assert.True(pairing.IsPaired(old), "until another one takes over, the first counts");
        string key = pairing.Pair(second)!;
        Assert.False(pairing.IsPaired(old));
        Assert.True(pairing.IsPaired(key));
    }

    [Fact]
    public void Wrong_words_are_counted_and_lock_nobody_out()
    {
        PhonePairing pairing = new(null, _time);
        for (int i = 0; i < 1000; i++)
        {
            Assert.False(pairing.Knows("AAAAAAAAAAAAAAAA"));
            Assert.False(pairing.IsPaired(""));
            Assert.False(pairing.IsPaired(new string('A', 100_000)));
        }

        Assert.Equal(3000, pairing.Wrong);
        Assert.NotNull(pairing.Pair(pairing.Token));
    }

    [Theory]
    [InlineData("rubbish")]
    [InlineData("")]
    [InlineData(null)]
    public void What_was_kept_and_is_damaged_costs_a_scan_and_nothing_else(string? kept)
    {
        PhonePairing before = new(_folder.FullName, _time);
        Assert.NotNull(before.Pair(before.Token));
        File.WriteAllText(Assert.Single(_folder.GetFiles()).FullName, kept ?? new string('A', 100_000));
        PhonePairing after = new(_folder.FullName, _time);
        Assert.False(after.IsPaired(""));
        Assert.NotNull(after.Pair(after.Token));
    }

    [Fact]
    public void A_program_that_is_started_again_knows_the_phone_by_its_key_for_a_day_and_keeps_neither_key_nor_token()
    {
        PhonePairing before = new(_folder.FullName, _time);
        string token = before.Token;
        string key = before.Pair(token)!;
        string kept = File.ReadAllText(Assert.Single(_folder.GetFiles()).FullName);
        Assert.DoesNotContain(key, kept, StringComparison.Ordinal);
        Assert.DoesNotContain(token, kept, StringComparison.Ordinal);

        _time.Advance(TimeSpan.FromHours(23));
        PhonePairing after = new(_folder.FullName, _time);
        Assert.NotEqual(token, after.Token);
        Assert.True(after.Knows(token));
        Assert.True(after.IsPaired(key));
        Assert.Null(after.Pair(token));

        _time.Advance(TimeSpan.FromHours(2));
        Assert.False(new PhonePairing(_folder.FullName, _time).IsPaired(key));
    }

    [Theory]
    [InlineData("")]
    [InlineData("rubbish")]
    [InlineData("zz zz zz\n")]
    [InlineData("ZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZ ZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZ 1795712400\n")]
    public void What_is_damaged_is_forgotten(string kept)
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "paired"), kept);
        PhonePairing pairing = new(_folder.FullName, _time);
        Assert.NotNull(pairing.Pair(pairing.Token));
    }

    [Fact]
    public void What_others_could_read_is_not_believed()
    {
        // Only Unix has such modes; elsewhere the folder of the settings is the user's own.
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        PhonePairing before = new(_folder.FullName, _time);
        string key = before.Pair(before.Token)!;
        string path = Assert.Single(_folder.GetFiles()).FullName;
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.OtherRead);
        Assert.False(new PhonePairing(_folder.FullName, _time).IsPaired(key));
    }
}
