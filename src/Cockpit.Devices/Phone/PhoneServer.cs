using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Devices.Ports;
using Cockpit.Session.Handset;
using Microsoft.AspNetCore.Builder;

namespace Cockpit.Devices.Phone;

/// <summary>Offers the page at one address of this computer, over HTTPS, and takes what the phone says.</summary>
/// <remarks>
/// In two steps: the socket is bound at once, so that an address that can never work is refused in time; everything of the web server is
/// loaded and started on threads of the pool.
/// </remarks>
public sealed class PhoneServer : IAsyncDisposable
{
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(2);

    private readonly Socket _socket;
    private readonly SensorOptions _options;
    private readonly string? _folder;
    private readonly CancellationTokenSource _ending = new();
    private PhoneDesk? _desk;
    private Task<WebApplication?>? _server;
    private X509Certificate2? _certificate;

    private PhoneServer(Socket socket, IPEndPoint place, SensorOptions options, string? folder)
    {
        _socket = socket;
        EndPoint = place;
        _options = options;
        _folder = folder;
        Place = SocketWords.Place(place.Address.ToString(), place.Port);
    }

    /// <summary>Where it is reached.</summary>
    public IPEndPoint EndPoint { get; }

    /// <summary>The same as it stands in an address.</summary>
    public string Place { get; }

    /// <summary>The address to scan; it holds the secret of the pairing and belongs on the screen only.</summary>
    public string Address => AddressOf(_desk?.Token);

    /// <summary>Whether a phone is connected.</summary>
    public bool IsConnected => _desk?.IsConnected ?? false;

    /// <summary>How long the pages needed to draw what was sent.</summary>
    public PhoneTimings? Timings => _desk?.Timings;

    /// <summary>Takes the address; nothing is answered yet.</summary>
    /// <param name="address">As a person wrote it.</param>
    /// <param name="folder">Where certificate and pairing are kept; null = nowhere.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <exception cref="PortException">It can never work; the message is one sentence.</exception>
    public static PhoneServer Bind(PhoneAddress address, string? folder, string source)
    {
        ArgumentNullException.ThrowIfNull(address);
        if (SecureLibrary.Trouble is { } missing)
        {
            throw new PortException(missing);
        }

        if (address.Address is not { } own && !NetworkPlace.Choose(NetworkPlace.OfThisComputer(), source).Try(out own, out ParseError? error))
        {
            throw new PortException(error.Message);
        }

        Socket socket = new(own.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            socket.Bind(new IPEndPoint(own, address.Port));

            // Who comes before the server is there waits a moment, and is not refused.
            socket.Listen(PhoneHost.Backlog);
            return new PhoneServer(socket, (IPEndPoint)socket.LocalEndPoint!, address.Options, folder);
        }
        catch (SocketException failure)
        {
            socket.Dispose();
            throw new PortException(
                failure.SocketErrorCode == SocketError.AddressNotAvailable
                    ? $"{own.ToString()} is not an address of this computer; leave the address out, or give one of its own"
                    : SocketWords.OfListening(failure, own.ToString(), address.Port),
                failure);
        }
    }

    /// <summary>Begins to answer; returns at once.</summary>
    /// <param name="listener">Takes what the phone says.</param>
    /// <param name="guidance">What to show now; null where nothing of now is known. Any thread, returns at once.</param>
    /// <param name="time">What waiting goes by.</param>
    public void Start(IPhoneListener listener, Func<HandsetGuidance?> guidance, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(listener);
        _desk = new PhoneDesk(new PhonePairing(_folder, time), _options, EndPoint.Port, listener, time);
        PhoneSetting setting = new(_desk, guidance, Place, time, _ending.Token);
        _server = Task.Run(() => ServeAsync(setting));
    }

    /// <summary>The address for another phone, or for the same one anew: a new one where the last was used.</summary>
    public string FreshAddress() => AddressOf(_desk?.FreshToken());

    private string AddressOf(string? token) => $"https://{Place}/{token}/";

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _desk?.EndAll();
        await _ending.CancelAsync();
        if (_server is { } starting && await starting is { } server)
        {
            using CancellationTokenSource limit = new(ClosingPatience, TimeProvider.System);
            await server.StopAsync(limit.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await server.DisposeAsync();
        }

        _desk?.Dispose();
        _certificate?.Dispose();
        _socket.Dispose();
        _ending.Dispose();
    }

    private async Task<WebApplication?> ServeAsync(PhoneSetting setting)
    {
        try
        {
            _certificate = PhoneCertificate.Get(_folder, EndPoint.Address, setting.Time.GetUtcNow(), out string? note);
            if (note is not null)
            {
                setting.Desk.Refuse(note);
            }

            WebApplication server = PhoneHost.Build(_socket, _certificate, setting);
            await server.StartAsync(_ending.Token);
            return server;
        }
#pragma warning disable CA1031 // Without the phone the pass goes on: whatever fails here is told.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            setting.Desk.Fail($"cannot be offered its page ({failure.Message}); the pass goes on without it");
            return null;
        }
    }
}
