using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>The operator's keys as the guidance understands them.</summary>
internal static class AimKeys
{
    /// <summary>Folds one key.</summary>
    public static AimMemory Press(AimMemory memory, AimContext context, OperatorKey key) => key switch
    {
        OperatorKey.Peaked => Peaked(memory, context),
        OperatorKey.Moved => Moved(memory, context),
        OperatorKey.NotMoved => NotMoved(memory, context),
        OperatorKey.Search when InPass(context) => memory with { PeakAskedAt = memory.PeakAskedAt is null ? context.Utc : null },
        _ => memory,
    };

    /// <summary>Between AOS and LOS.</summary>
    public static bool InPass(AimContext context) => context.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;

    private static AimMemory Peaked(AimMemory memory, AimContext context)
    {
        if (!InPass(context) || context.Sky?.Now is not { } look)
        {
            return Say(memory, context, "Mark not taken: the satellite is not above the horizon.");
        }

        if (context.Link is not { Fresh: true, MeasuredDb: { } level })
        {
            return Say(Accept(memory, context, look), context, "Marked without a signal to check it against.");
        }

        double gain = level - ExpectedLevel.ShapeDb(context.Settings, look);
        bool sameScale = string.Equals(memory.GainQuantity, context.Link.Quantity, StringComparison.Ordinal);
        double? short_ = sameScale ? memory.GainDb - gain : null;
        bool insists = memory.RefusedAt is { } refused && context.Utc - refused <= AimRules.InsistWithin;
        if (short_ > AimRules.RefuseDb && !insists)
        {
            return Say(
                memory with { RefusedAt = context.Utc },
                context,
                string.Create(CultureInfo.InvariantCulture, $"Mark not taken: {short_:0.0} dB under the best; peak again, or press again at once to insist."));
        }

        memory = Accept(memory, context, look);
        return memory with
        {
            GainDb = sameScale && memory.GainDb is { } best && best > gain ? best + (AimRules.GainDownPerMark * (gain - best)) : gain,
            GainQuantity = context.Link.Quantity,
            RefusedAt = null,
            Notice = null,
        };
    }

    private static AimMemory Accept(AimMemory memory, AimContext context, LookAngles look) =>
        AimMoves.Mark(memory with { MarkedAt = context.Utc, NudgesSinceMark = 0 }, context, look, AimRules.MarkSpread, PointingOrigin.Mark);

    private static AimMemory Moved(AimMemory memory, AimContext context)
    {
        if (context.Sky?.Phase is PassPhase.Waiting or PassPhase.Ready)
        {
            return Say(AimMoves.SetUp(memory, context), context, "Set up at the first hold.");
        }

        if (memory.CalledAt is not null || Announced(memory, context))
        {
            return AimMoves.Nudge(memory, context);
        }

        bool confirms = memory.LastNudge is { } last && context.Utc - last.CalledAt <= AimRules.ConfirmWithin;
        return confirms ? memory : Say(memory, context, "Nothing was called: press \"peaked\" when the signal is at its best.");
    }

    private static AimMemory NotMoved(AimMemory memory, AimContext context) => memory.CalledAt is null && memory.LastNudge is null
        ? Say(memory, context, "There is no nudge to take back.")
        : AimMoves.TakeBack(memory, context);

    private static bool Announced(AimMemory memory, AimContext context) =>
        memory.NudgeAt - context.Utc <= AimRules.NoticeBefore && !(context.Utc - memory.LastNudge?.CalledAt <= AimRules.ConfirmWithin);

    private static AimMemory Say(AimMemory memory, AimContext context, string text) =>
        memory with { Notice = new Message(text, MessageWeight.Advisory, context.Utc) };
}
