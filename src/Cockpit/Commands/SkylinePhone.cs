using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Devices.Phone;
using Cockpit.Session.Handset;
using Cockpit.Session.State;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>Runs a lesson that a phone on the dish teaches, to its end: HERE on the phone or the keyboard, the drawing in the terminal.</summary>
/// <param name="place">Name of the place.</param>
/// <param name="output">Where the drawing goes.</param>
/// <param name="signs">What it is drawn with.</param>
/// <param name="offers">What can be pointed at now; the sun moves.</param>
internal sealed class SkylinePhone(string place, TextWriter output, DrawingSigns signs, Func<ImmutableArray<DirectionOffer>> offers) : IPhoneListener
{
    private const int MostWaiting = 1000;
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan Redraw = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan SunMoves = TimeSpan.FromSeconds(5);

    private readonly SkylineDrawing _drawing = new(signs);
    private readonly ConcurrentQueue<Func<SkylinePan, SkylinePan>> _happened = new();
    private HandsetGuidance _guidance = HandsetGuidance.None;
    private string _state = "no phone yet";

    /// <inheritdoc/>
    public void Turned(SensorSample sample, TimeSpan age)
    {
        Volatile.Write(ref _state, "the phone speaks");
        Happens(pan => pan.Turned(sample));
    }

    /// <inheritdoc/>
    public void Pressed(PhoneButton button)
    {
        if (button == PhoneButton.Here)
        {
            Happens(pan => pan.Here());
        }
    }

    /// <inheritdoc/>
    public void Changed(PhoneState state, string words) => Volatile.Write(ref _state, words.Length > 0 ? $"the phone {words}" : "the phone speaks");

    /// <inheritdoc/>
    public void TurnedAway(int count) => Volatile.Write(ref _state, string.Create(CultureInfo.InvariantCulture, $"{count} came with a wrong code and were turned away"));

    /// <inheritdoc/>
    public void Refused(string reason) => Volatile.Write(ref _state, reason);

    /// <summary>Runs it.</summary>
    /// <param name="pan">Where it begins.</param>
    /// <param name="server">The server, bound and not started.</param>
    public async Task<SkylineLesson> RunAsync(SkylinePan pan, PhoneServer server)
    {
        Show(pan);
        server.Start(this, () => Volatile.Read(ref _guidance), TimeProvider.System);
        bool inTerminal = !Console.IsInputRedirected && !Console.IsOutputRedirected;
        if (inTerminal)
        {
            Console.Clear();
        }
        else
        {
            _ = Task.Run(ReadLines);
        }

        PairingLines.Print(server.Address, output);

        long drawn = 0;
        long asked = TimeProvider.System.GetTimestamp();
        string said = "";
        while (pan.Lesson.State == LessonState.Open)
        {
            while (_happened.TryDequeue(out Func<SkylinePan, SkylinePan>? change) && pan.Lesson.State == LessonState.Open)
            {
                pan = change(pan);
            }

            while (inTerminal && Console.KeyAvailable)
            {
                pan = pan.Press(SkylineTeacher.NameOf(Console.ReadKey(intercept: true)));
            }

            if (pan.IsSetting && TimeProvider.System.GetElapsedTime(asked) > SunMoves)
            {
                asked = TimeProvider.System.GetTimestamp();
                pan = pan with { Offers = offers() };
            }

            Show(pan);
            if (inTerminal && pan.Read is not null && (drawn == 0 || TimeProvider.System.GetElapsedTime(drawn) > Redraw))
            {
                if (drawn == 0)
                {
                    Console.Clear();
                }

                drawn = TimeProvider.System.GetTimestamp();
                Draw(pan, server);
            }
            else if (!inTerminal && !string.Equals(said, pan.Lesson.Note, StringComparison.Ordinal))
            {
                said = pan.Lesson.Note;
                await output.WriteLineAsync(said);
                await output.FlushAsync();
            }

            await Task.Delay(Look, TimeProvider.System);
        }

        return pan.Lesson;
    }

    /// <summary>What the phone shows.</summary>
    internal static HandsetGuidance GuidanceOf(SkylinePan pan, string place) => HandsetGuidance.None with
    {
        Word = "POINT",
        Text = pan.Points is { } at ? string.Create(CultureInfo.InvariantCulture, $"AZ {at.Azimuth:000} EL {at.Elevation:0.0}") : "",
        Signal = string.Create(CultureInfo.InvariantCulture, $"{pan.Lesson.Points.Count} points"),
        Note = pan.Task.Length <= HandsetGuidance.LongestNote ? pan.Task : pan.Task[..HandsetGuidance.LongestNote],
        Buttons = ["here"],
        Satellite = place,
    };

    /// <summary>What the terminal shows.</summary>
    internal IEnumerable<string> Page(SkylinePan pan, string address)
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"SKYLINE of {place} by phone, azimuth true, {pan.Lesson.Points.Count} points");
        foreach (string line in _drawing.Lines(pan.Lesson.Mask, pan.Points is { } here ? Angle.FromDegrees(here.Azimuth) : null))
        {
            yield return line;
        }

        yield return pan.Points is { } at ? string.Create(CultureInfo.InvariantCulture, $"the dish points at azimuth {at.Azimuth:000.0}, elevation {at.Elevation:0.0}") : $"phone: {address}";
        yield return pan.Task;
        yield return pan.Lesson.Note;
        yield return Volatile.Read(ref _state);
        yield return "Enter: HERE  G: another direction  F: by its compass";
        yield return "Backspace: take back  S: keep in the settings  Q: leave";
        yield return "Never look along the dish near the sun; by its shadow only, and for a moment.";
    }

    private void Draw(SkylinePan pan, PhoneServer server)
    {
        Console.SetCursorPosition(0, 0);
        int width = Math.Max(20, Console.WindowWidth - 1);
        foreach (string line in Page(pan, server.Address).Concat(Enumerable.Repeat("", 4)).Take(Math.Max(4, Console.WindowHeight - 1)))
        {
            output.WriteLine(line.Length > width ? line[..width] : line.PadRight(width));
        }

        output.Flush();
    }

    private void Show(SkylinePan pan) => Volatile.Write(ref _guidance, GuidanceOf(pan, place));

    private void Happens(Func<SkylinePan, SkylinePan> change)
    {
        if (_happened.Count < MostWaiting)
        {
            _happened.Enqueue(change);
        }
    }

    private void ReadLines()
    {
        while (Console.In.ReadLine() is { } line)
        {
            Happens(pan => pan.Line(line));
        }

        Happens(pan => pan.Line("done"));
    }
}
