using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Cockpit.Devices.Phone;

/// <summary>Who may speak: a token in the address for the first word, and the key that it is exchanged for. Not safe from several threads.</summary>
/// <remarks>Only fingerprints are compared and kept, in fixed time; wrong ones are counted and lock nobody out, because that would be the owner too.</remarks>
public sealed class PhonePairing
{
    /// <summary>Letters of a token: 80 bits.</summary>
    public const int TokenLength = 16;

    /// <summary>Letters of a key: 125 bits.</summary>
    public const int KeyLength = 25;

    /// <summary>A pairing that was kept is good for so long.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromHours(24);

    private const string FileName = "paired";
    private const string Letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
    private const int MostTokens = 64;
    private const int LongestFile = 4096;

    private readonly string? _path;
    private readonly TimeProvider _time;
    private readonly List<byte[]> _tokens = [];
    private byte[]? _spentToken;
    private byte[]? _key;
    private bool _spent;

    /// <summary>Makes the first token, and remembers who was paired shortly before, so that a program that was started again is found again.</summary>
    /// <param name="folder">Where the fingerprints of a pairing are kept; null = nowhere.</param>
    /// <param name="time">For their age.</param>
    public PhonePairing(string? folder, TimeProvider time)
    {
        _path = folder is null ? null : Path.Combine(folder, FileName);
        _time = time;
        Token = NewToken();
        Remember();
    }

    /// <summary>The token of the address that is shown now.</summary>
    public string Token { get; private set; }

    /// <summary>Whether that token was used.</summary>
    public bool IsSpent => _spent;

    /// <summary>Words that opened nothing so far.</summary>
    public int Wrong { get; private set; }

    /// <summary>A new token for another phone; one that was not used yet is dead from now on.</summary>
    public string NewToken()
    {
        Token = RandomNumberGenerator.GetString(Letters, TokenLength);
        _spent = false;
        _tokens.Add(Fingerprint(Token));
        if (_tokens.Count > MostTokens)
        {
            _tokens.RemoveAt(0);
        }

        return Token;
    }

    /// <summary>Whether the page may be given under that token: under each that was ever made in this run, and that of the pairing that is remembered.</summary>
    public bool Knows(string token)
    {
        byte[] asked = Fingerprint(token);
        bool known = _spentToken is { } old && CryptographicOperations.FixedTimeEquals(asked, old);
        foreach (byte[] one in _tokens)
        {
            known |= CryptographicOperations.FixedTimeEquals(asked, one);
        }

        Wrong += known ? 0 : 1;
        return known;
    }

    /// <summary>Pairs a phone that has the token that is shown, once.</summary>
    /// <returns>Its key; null where the token is another one or spent.</returns>
    public string? Pair(string token)
    {
        if (_spent || !CryptographicOperations.FixedTimeEquals(Fingerprint(token), _tokens[^1]))
        {
            Wrong++;
            return null;
        }

        string key = RandomNumberGenerator.GetString(Letters, KeyLength);
        _spent = true;
        _spentToken = _tokens[^1];
        _key = Fingerprint(key);
        Keep();
        return key;
    }

    /// <summary>Whether a key is that of the phone that was paired last.</summary>
    public bool IsPaired(string key)
    {
        bool right = _key is { } own && CryptographicOperations.FixedTimeEquals(Fingerprint(key), own);
        Wrong += right ? 0 : 1;
        return right;
    }

    private bool Keep() => _path is { } path && _key is { } key && _spentToken is { } token && Try(() =>
        OwnedFile.Write(path, Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{Convert.ToHexString(token)} {Convert.ToHexString(key)} {_time.GetUtcNow().ToUnixTimeSeconds()}\n"))));

    private void Remember() => Try(() =>
    {
        if (_path is null || OwnedFile.Read(_path, LongestFile) is not { } bytes || OwnedFile.IsOpenToOthers(_path))
        {
            return;
        }

        string[] parts = Encoding.ASCII.GetString(bytes).Split(' ', '\n');
        if (parts is [{ Length: 64 } token, { Length: 64 } key, var at, ..] && long.TryParse(at, NumberStyles.None, CultureInfo.InvariantCulture, out long seconds)
            && (_time.GetUtcNow() - DateTimeOffset.UnixEpoch - TimeSpan.FromSeconds(seconds)).Duration() <= Kept)
        {
            _spentToken = Convert.FromHexString(token);
            _key = Convert.FromHexString(key);
        }
    });

    /// <summary>What is kept is a convenience: without it the phone scans once more.</summary>
    private static bool Try(Action act)
    {
        try
        {
            act();
            return true;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or FormatException)
        {
            return false;
        }
    }

    private static byte[] Fingerprint(string word) => SHA256.HashData(Encoding.UTF8.GetBytes(word.Length > 64 ? "" : word));
}
