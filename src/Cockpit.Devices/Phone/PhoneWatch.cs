using System.Globalization;

namespace Cockpit.Devices.Phone;

/// <summary>How it stands with the phone, judged by what it said last and when. Not safe from several threads.</summary>
/// <remarks>An open connection proves nothing about the page: a frozen one keeps it for minutes. Only the age of its last word does.</remarks>
/// <param name="port">Where it is listened, for people.</param>
/// <param name="time">What ages go by.</param>
internal sealed class PhoneWatch(int port, TimeProvider time)
{
    /// <summary>A page that says nothing for so long is asleep.</summary>
    public static readonly TimeSpan Asleep = TimeSpan.FromSeconds(1);

    /// <summary>When nothing at all has asked for the page in this time, something is in between.</summary>
    public static readonly TimeSpan Unreached = TimeSpan.FromSeconds(20);

    private readonly long _begun = time.GetTimestamp();
    private bool _asked;
    private bool _everPaired;
    private bool _connected;
    private bool _hidden;
    private bool _turned;
    private string? _blind;
    private string? _parting;
    private string? _failed;
    private long _heard;

    /// <summary>Somebody asked for something.</summary>
    public void Asked() => _asked = true;

    /// <summary>A phone is connected.</summary>
    public void Entered()
    {
        (_everPaired, _connected, _hidden, _turned, _blind, _parting) = (true, true, false, false, null, null);
        Heard();
    }

    /// <summary>It is connected no more.</summary>
    /// <param name="why">What it said, or what happened, a few words and what to do.</param>
    public void Left(string why) => (_connected, _parting) = (false, why);

    /// <summary>It said anything.</summary>
    public void Heard() => _heard = time.GetTimestamp();

    /// <summary>It told how it is turned.</summary>
    public void Turned() => (_turned, _blind, _hidden) = (true, null, false);

    /// <summary>Its page went out of sight, or came back.</summary>
    public void Hidden(bool isHidden) => _hidden = isHidden;

    /// <summary>Its sensors do not speak.</summary>
    public void Blind(string? why) => _blind = why;

    /// <summary>The server cannot go on.</summary>
    public void Failed(string why) => _failed = why;

    /// <summary>How it stands now.</summary>
    /// <returns>The state, and what is the matter with what to do, to be read behind the name of the phone; empty when all is well.</returns>
    public (PhoneState State, string Words) Now()
    {
        if (_failed is { } failure)
        {
            return (PhoneState.Failed, failure);
        }

        if (!_connected)
        {
            return _everPaired ? (PhoneState.Gone, _parting ?? Lost) : Waiting();
        }

        return _hidden ? (PhoneState.Hidden, "has its page not in front: bring it back")
            : time.GetElapsedTime(_heard) > Asleep ? (PhoneState.Asleep, "is asleep: wake it")
            : _blind is { } blind ? (PhoneState.Blind, blind)
            : _turned ? (PhoneState.Speaking, "")
            : (PhoneState.Paired, "is paired, but its sensors have not spoken yet: touch START");
    }

    /// <summary>The connection ended without a word.</summary>
    public const string Lost = "is gone: the link broke; its page tries again by itself";

    /// <summary>The person stopped the page.</summary>
    public const string Stopped = "is stopped on the phone; START there begins again";

    private (PhoneState State, string Words) Waiting() => !_asked && time.GetElapsedTime(_begun) >= Unreached
        ? (PhoneState.Unreached, string.Create(CultureInfo.InvariantCulture, $"has not come in {Unreached.TotalSeconds:0} s: does the firewall let port {port} in? are phone and laptop in one network?"))
        : (PhoneState.Waiting, "is not paired yet: scan the code");
}
