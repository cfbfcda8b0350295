using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Phone;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;
using Cockpit.Settings.Stored;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say what is listened to in a pass.</summary>
internal sealed class LiveFeedOptions
{
    private readonly Option<string> _signal = new("--signal") { HelpName = LineAddress.Forms, Description = "Where the level comes from: one record a line, or samples of the receiver (file:PATH of the recording that is being written, or ?format=ci16&rate=3000000 behind the address)" };
    private readonly RecordOption _record = new();
    private readonly Option<string> _place = new("--place") { HelpName = PlaceAddress.Forms, Description = "A receiver of navigation satellites (gpsd, or NMEA 0183): compares the station and this computer's clock with it; C corrects the predictions" };
    private readonly Option<string> _tune = new("--tune") { HelpName = "rig://HOST:PORT", Description = "Tune the receiver behind a rig server (Hamlib network protocol) to the Doppler-corrected carrier" };

    private readonly Option<string> _pointing = new("--pointing")
    {
        HelpName = PointingAddress.Forms,
        Description = $"A sensor on the dish that says where it points (az= el=, roll= pitch= heading=, a quaternion, JSON, NMEA HDT HDG XDR); behind the address ?{SensorOptions.Forms}",
    };

    private readonly Option<string?> _phone = new("--phone")
    {
        HelpName = PhoneAddress.Forms,
        Description = $"A page for a phone on the dish: it tells where the dish points and shows where it must go. Alone: at the one address of this computer that can be meant; behind the address ?{SensorOptions.Forms}",
        Arity = ArgumentArity.ZeroOrOne,
    };

    /// <summary>Gives them to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _signal, _tune, _record.Option, _place, _pointing, _phone })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Whether the signal comes by standard input, which can be read once only.</summary>
    public bool IsOnce(ParseResult parsed) => parsed.GetValue(_signal) is { } address && address.StartsWith('-');

    /// <summary>Opens all of them.</summary>
    /// <param name="parsed">The words.</param>
    /// <param name="plan">The session; its feeds and the room that a recording takes are added to it.</param>
    /// <param name="carrier">What the satellite sends on; null where nobody said.</param>
    /// <param name="feeds">Own them from here on.</param>
    /// <param name="say">Told what a recording needs.</param>
    public Parsed<SessionPlan> Open(ParseResult parsed, SessionPlan plan, Frequency? carrier, LiveFeeds feeds, TextWriter say)
    {
        ParseError? refusal = OpenSignal(parsed, ref plan, feeds, say) ?? OpenTuner(parsed, carrier, feeds) ?? OpenPlace(parsed, feeds) ?? OpenPointing(parsed, feeds) ?? OpenPhone(parsed, feeds);
        return refusal is not null ? refusal : plan with { Settings = plan.Settings with { Feeds = feeds.Settings } };
    }

    private ParseError? OpenSignal(ParseResult parsed, ref SessionPlan plan, LiveFeeds feeds, TextWriter say)
    {
        const string option = "--signal";
        if (parsed.GetValue(_signal) is not { } address)
        {
            return null;
        }

        if (SampleAddress.IsOne(address))
        {
            if (!SampleAddress.Read(address, option).Try(out SampleAddress? samples, out ParseError? mistake)
                || (mistake = _record.Read(parsed, samples, ref plan, say, out RecordingWish? wish)) is not null)
            {
                return mistake;
            }

            return feeds.Add(new SampleFeed(samples, Sources.Signal, plan.Settings.Downlink, wish), FeedRole.Signal, option);
        }

        if (!LineAddress.Read(address, option).Try(out LineAddress? where, out ParseError? error))
        {
            return error;
        }

        return where.MakePort(option, TimeProvider.System, out error) is { } port
            ? feeds.Add(new LineFeed(port, Sources.Signal, where.MakeGrammar()), FeedRole.Signal, option)
            : error;
    }

    private ParseError? OpenTuner(ParseResult parsed, Frequency? told, LiveFeeds feeds)
    {
        const string option = "--tune";
        if (parsed.GetValue(_tune) is not { } address)
        {
            return null;
        }

        if (told is not { } carrier)
        {
            return new ParseError(option, 0, 0, "give the carrier as the satellite sends it too, like --frequency 1701.3MHz");
        }

        return RigAddress.Read(address, option).Try(out RigAddress? where, out ParseError? error)
            ? feeds.Add(new RigTuner(where, Sources.Tune, carrier), FeedRole.Other, option)
            : error;
    }

    private ParseError? OpenPlace(ParseResult parsed, LiveFeeds feeds)
    {
        const string option = "--place";
        if (parsed.GetValue(_place) is not { } text)
        {
            return null;
        }

        PlaceAddress address = new(text);
        return address.MakePort(option, TimeProvider.System, out ParseError? error) is { } port
            ? feeds.Add(new LineFeed(port, Sources.Place, address.MakeGrammar()), FeedRole.Place, option)
            : error;
    }

    private ParseError? OpenPointing(ParseResult parsed, LiveFeeds feeds)
    {
        const string option = "--pointing";
        if (parsed.GetValue(_pointing) is not { } text)
        {
            return null;
        }

        return PointingAddress.Read(text, option).Try(out PointingAddress? address, out ParseError? error) && address.MakePort(option, TimeProvider.System, out error) is { } port
            ? feeds.Add(new LineFeed(port, Sources.Pointing, address.MakeGrammar()), FeedRole.Pointing, option)
            : error;
    }

    private ParseError? OpenPhone(ParseResult parsed, LiveFeeds feeds)
    {
        const string option = "--phone";
        if (parsed.GetResult(_phone) is not { Implicit: false })
        {
            return null;
        }

        if (parsed.GetValue(_pointing) is not null)
        {
            return new ParseError(option, 0, 0, "the phone is a sensor on the dish, and so is --pointing; give one of them");
        }

        return PhoneAddress.Read(parsed.GetValue(_phone) ?? "", option).Try(out PhoneAddress? address, out ParseError? error)
            ? feeds.Add(new PhoneFeed(address, Sources.Phone, SettingsFile.UsualPhoneFolder, option), FeedRole.Pointing, option)
            : error;
    }
}
