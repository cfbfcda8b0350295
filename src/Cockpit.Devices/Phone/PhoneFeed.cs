using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Devices.Feeds;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Handset;

namespace Cockpit.Devices.Phone;

/// <summary>The phone on the dish as a feed of a session: its orientation, its buttons, and how it stands with it.</summary>
/// <param name="address">Where the page is offered.</param>
/// <param name="name">Name of the feed.</param>
/// <param name="folder">Where certificate and pairing are kept; null = nowhere.</param>
/// <param name="source">What the address belongs to, for the error.</param>
public sealed class PhoneFeed(PhoneAddress address, string name, string? folder, string source) : IFeed, IPhoneListener
{
    /// <summary>Guidance that is older is none.</summary>
    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(1);

    private PhoneServer? _server;
    private FeedPublisher? _publisher;
    private Given? _given;

    private sealed record Given(HandsetGuidance Guidance, long At);

    /// <inheritdoc/>
    public string Name => name;

    /// <summary>Which axis of the phone lies along the dish.</summary>
    public DeviceAxis Axis => address.Options.Axis;

    /// <summary>The server; null before it is opened.</summary>
    public PhoneServer? Server => _server;

    /// <summary>Called when it changes how it stands with the phone, from any thread.</summary>
    public Action<PhoneState>? StateChanged { get; set; }

    /// <summary>Gives what the phone is to show; any thread, the latest wins.</summary>
    public void Show(HandsetGuidance guidance) => Volatile.Write(ref _given, new Given(guidance, TimeProvider.System.GetTimestamp()));

    /// <inheritdoc/>
    public void Open() => _server = PhoneServer.Bind(address, folder, source);

    /// <inheritdoc/>
    public void Start(IEventSink sink, TimeProvider time)
    {
        _publisher = new FeedPublisher(name, sink, time);
        _server?.Start(this, Latest, time);
    }

    /// <inheritdoc/>
    public void Turned(SensorSample sample, TimeSpan age) => _publisher?.Measured(new PointingMeasured(name, sample, age));

    /// <inheritdoc/>
    public void Pressed(PhoneButton button)
    {
        if (KeyOf(button) is { } key)
        {
            _publisher?.Say(new OperatorPressed(key));
        }
    }

    /// <inheritdoc/>
    public void Changed(PhoneState state, string words)
    {
        if (state is PhoneState.Speaking or PhoneState.Paired)
        {
            _publisher?.Connected(_server?.Place ?? "");
        }
        else
        {
            _publisher?.Lost(words);
        }

        // What lasts stands with the feed; in the pass only a passing note is seen of it.
        if (state is not (PhoneState.Speaking or PhoneState.Waiting))
        {
            _publisher?.Say(new FeedNoted(name, words));
        }

        StateChanged?.Invoke(state);
    }

    /// <inheritdoc/>
    public void TurnedAway(int count) => _publisher?.Say(new FeedNoted(name, string.Create(
        CultureInfo.InvariantCulture, $"turned away {count} {(count == 1 ? "request" : "requests")} with a wrong code")));

    /// <inheritdoc/>
    public void Refused(string reason) => _publisher?.Rejected(reason);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_server is { } server)
        {
            await server.DisposeAsync();
        }

        _publisher?.Dispose();
    }

    private HandsetGuidance? Latest() =>
        Volatile.Read(ref _given) is { } given && TimeProvider.System.GetElapsedTime(given.At) <= Fresh ? given.Guidance : null;

    private static OperatorKey? KeyOf(PhoneButton button) => button switch
    {
        PhoneButton.Peaked => OperatorKey.Peaked,
        PhoneButton.Moved => OperatorKey.Moved,
        PhoneButton.NotMoved => OperatorKey.NotMoved,
        PhoneButton.Here => OperatorKey.OnDirection,
        _ => null,
    };
}
