using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>Feeds of the level of the signal, opened and started as a session does it.</summary>
internal static class SignalFeeds
{
    internal static LineFeed Opened(IPort port)
    {
        LineFeed feed = new(port, "signal", new SignalGrammar());
        feed.Open();
        return feed;
    }

    internal static LineFeed Started(IPort port, IEventSink events)
    {
        LineFeed feed = Opened(port);
        feed.Start(events, TimeProvider.System);
        return feed;
    }

    internal static LineFeed Started(string address, IEventSink events) => Started(PortAt(address), events);

    internal static IPort PortAt(string address) => LineAddress.Read(address, "--signal").Value!.MakePort("--signal", TimeProvider.System, out _)!;
}
