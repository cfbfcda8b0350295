using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The one line of messages, with a sign for its weight and the time since when it stands.</summary>
internal static class MessagePanel
{
    public static Block Of(Snapshot now, int width)
    {
        Canvas canvas = new(width, 1);
        if (now.Message is not { } message)
        {
            return canvas.ToBlock();
        }

        // A warning blinks once a second (its ground only, the text stays), slower than the three flashes of WCAG 2.3.1.
        bool lit = now.Elapsed.Milliseconds < 500;
        (string sign, Role role) = message.Weight switch
        {
            MessageWeight.Warning => ("!!", lit ? Role.Warning : Role.Caution),
            MessageWeight.Caution => (" !", Role.Caution),
            _ => (" ·", Role.Advisory),
        };
        string since = Figures.Clock(message.SinceUtc);
        canvas.Text(0, 0, new string(' ', width), role);
        canvas.Text(0, 0, Figures.Fit($"{sign} {message.Text}", width - since.Length - 2), role);
        canvas.TextBefore(width - 1, 0, since, role);
        return canvas.ToBlock();
    }
}
