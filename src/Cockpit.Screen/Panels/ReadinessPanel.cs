using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>Before the pass: each thing that has to be right, with what to do; and which pass it is, beside those that could be flown in its place.</summary>
internal static class ReadinessPanel
{
    private const int Left = 1;
    private const int TopicAt = 3;
    private const int FoundAt = 13;
    private const int NameWidth = 16;

    public static Block Of(Snapshot now, ReadinessNow readiness, int width, int height)
    {
        Canvas canvas = new(width, height);
        PassChoice? choice = now.Settings?.Choice;
        canvas.Text(Left, 0, "CHECK", Role.Strong);
        canvas.Text(FoundAt, 0, Figures.Fit(choice?.Why ?? Summary(readiness), width - FoundAt - 1), choice is null ? Role.Dim : Role.Plain);

        // The passes stand at the foot; where room is short they give way, the one that is flown stands in the clock's line anyway.
        int row = 1;
        foreach (ReadinessItem item in readiness.Items)
        {
            Item(canvas, row++, item);
        }

        if (choice is { Offers.Length: > 1 })
        {
            Offers(canvas, Math.Max(row, Math.Min(row + 1, height - choice.Offers.Length)), choice);
        }

        return canvas.ToBlock();
    }

    private static void Item(Canvas canvas, int row, ReadinessItem item)
    {
        (string sign, Role role) = item.State switch
        {
            ReadinessState.Green => ("●", Role.Good),
            ReadinessState.Red => ("✗", Role.Warning),
            _ => ("○", Role.Caution),
        };
        canvas.Text(Left, row, sign, role);
        canvas.Text(TopicAt, row, item.Topic.ToString().ToLowerInvariant(), Role.Dim);
        int room = canvas.Width - FoundAt - 1;
        string todo = item.ToDo is { } words ? $"→ {words}" : "";
        int left = room - CellColumns.Width(todo) - (todo.Length == 0 ? 0 : 2);
        string found = Figures.Fit(item.Found, Math.Max(left, Math.Min(room, 20)));
        canvas.Text(FoundAt, row, found, item.State == ReadinessState.Red ? Role.Caution : Role.Plain);
        int at = FoundAt + CellColumns.Width(found) + 2;
        canvas.Text(at, row, Figures.Fit(todo, canvas.Width - at - 1), Role.Key);
    }

    private static void Offers(Canvas canvas, int row, PassChoice choice)
    {
        for (int index = 0; index < choice.Offers.Length && row < canvas.Height; index++, row++)
        {
            PassOffer offer = choice.Offers[index];
            bool taken = index == choice.Taken;
            Role role = taken ? Role.Strong : Role.Plain;
            canvas.Text(Left, row, string.Create(CultureInfo.InvariantCulture, $"{(taken ? "►" : " ")} {index + 1}"), taken ? Role.Strong : Role.Key);
            canvas.Text(TopicAt + 2, row, string.Create(CultureInfo.InvariantCulture, $"{offer.Aos:HH:mm}Z {Figures.Fit(offer.Satellite, NameWidth),-NameWidth} {offer.Top.Degrees,3:0}°"), role);
            int at = TopicAt + 2 + 7 + NameWidth + 6;
            canvas.Text(at, row, Figures.Fit(offer.Words, canvas.Width - at - 1), taken ? Role.Plain : Role.Dim);
        }
    }

    private static string Summary(ReadinessNow readiness) => (readiness.Red, readiness.Open) switch
    {
        (0, 0) => "all is ready",
        (0, var open) => string.Create(CultureInfo.InvariantCulture, $"nothing is wrong, {open} open"),
        var (red, open) => string.Create(CultureInfo.InvariantCulture, $"{red} wrong, {open} open; the pass is flown all the same"),
    };
}
