using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say which simulated passes are flown.</summary>
internal sealed class GuidanceChoices
{
    private const int MostSeeds = 200;
    private const int UsualSeeds = 5;
    private static readonly double UsualDish = CockpitSettings.Usual.Link.Dish.DiameterMetres;

    private static readonly ImmutableArray<(string Name, Steering Steering)> Steerings =
    [
        ("perfect", Steering.Perfect),
        ("hold-plan", Steering.HoldPlan),
        ("unguided", Steering.Unguided),
        ("guided", Steering.Guided),
        ("known-dish", Steering.KnownDish),
        ("exact-hand", Steering.ExactHand),
        ("sensor", Steering.Sensor),
        ("sensor-and-signal", Steering.SensorAndSignal),
        ("inclinometer", Steering.Inclinometer),
        ("raw-sensor", Steering.RawSensor),
    ];

    private readonly Option<long?> _seeds = CommonOptions.Whole("--seeds", "N", $"Seeds for each pass; {UsualSeeds} where missing", 1, MostSeeds);
    private readonly Option<long?> _first = CommonOptions.Whole("--first", "SEED", "The first seed; 0 where missing", 0, int.MaxValue);
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<string> _passes = new("--passes") { HelpName = "DEG,...", Description = "Highest elevations of the passes, degrees", DefaultValueFactory = _ => "15,30,45,60,75,88" };
    private readonly Option<string> _steering = new("--steering") { HelpName = "NAME,...", Description = $"Ways of steering: {string.Join(", ", Steerings.Select(s => s.Name))}", DefaultValueFactory = _ => "perfect,hold-plan,unguided,guided" };
    private readonly Option<string?> _hand = new("--hand") { HelpName = "FILE|novice|practised", Description = "The hand: a name, or JSON with its parameters; both hands where missing" };
    private readonly Option<string> _world = new("--world") { HelpName = "FILE|honest|today", Description = "The world: a name, or JSON with its parameters", DefaultValueFactory = _ => "honest" };

    public Option<bool> Stress { get; } = new("--stress") { Description = "Fly the guided hands also in worlds that are otherwise than the guidance thinks" };

    public Option<bool> SensorCases { get; } = new("--sensor-cases") { Description = "Fly the hands guided by level and sensor also with sensors that are wrong in other ways, jump, sleep or swing off the dish" };

    public Option<bool> Learn { get; } = new("--learn") { Description = "Learn each hand from ten passes of its own, compare with what it is, and with the standard guidance on other passes; two unusual hands where --hand is missing" };

    public Option<bool> OverTime { get; } = new("--over-time") { Description = "Print how far the belief was off the dish, by seconds since AOS" };

    public static string NameOf(Steering steering) => Steerings.First(s => s.Steering == steering).Name;

    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _seeds, _first, _dish, _passes, _steering, _hand, _world, Stress, SensorCases, OverTime, Learn })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The passes of each way of steering and hand.</summary>
    public Parsed<IReadOnlyList<ImmutableArray<Trial>>> Read(ParseResult parsed)
    {
        int seeds = (int)(parsed.GetValue(_seeds) ?? UsualSeeds);
        int first = (int)(parsed.GetValue(_first) ?? 0);
        double dish = parsed.GetValue(_dish) ?? UsualDish;
        if (!ReadPasses(parsed.GetValue(_passes) ?? "").Try(out double[]? passes, out ParseError? error)
            || !ReadSteerings(parsed.GetValue(_steering) ?? "").Try(out Steering[]? steerings, out error)
            || !ReadHands(parsed.GetValue(_hand)).Try(out HandSkill[]? hands, out error)
            || !ReadWorld(parsed.GetValue(_world) ?? "honest").Try(out WorldModel? world, out error))
        {
            return error;
        }

        List<ImmutableArray<Trial>> rows = [];
        foreach (Steering steering in steerings)
        {
            foreach (HandSkill hand in GuidanceTrials.HasHand(steering) ? hands : hands[..1])
            {
                rows.Add([.. from pass in passes from seed in Enumerable.Range(first, seeds) select new Trial(steering, hand, world, pass, (ulong)seed, dish)]);
            }
        }

        return rows;
    }

    /// <summary>The guided passes of each hand that is to be learnt.</summary>
    public Parsed<IReadOnlyList<ImmutableArray<Trial>>> ReadLearn(ParseResult parsed)
    {
        if (!ReadPasses(parsed.GetValue(_passes) ?? "").Try(out double[]? passes, out ParseError? error)
            || !ReadHands(parsed.GetValue(_hand)).Try(out HandSkill[]? hands, out error)
            || !ReadWorld(parsed.GetValue(_world) ?? "honest").Try(out WorldModel? world, out error))
        {
            return error;
        }

        int seeds = (int)(parsed.GetValue(_seeds) ?? UsualSeeds);
        int first = (int)(parsed.GetValue(_first) ?? 0);
        double dish = parsed.GetValue(_dish) ?? UsualDish;
        IEnumerable<HandSkill> asked = parsed.GetValue(_hand) is null ? LearnTrial.Hands : hands;
        return asked.Select(hand => (from pass in passes from seed in Enumerable.Range(first, seeds) select new Trial(Steering.Guided, hand, world, pass, (ulong)seed, dish)).ToImmutableArray()).ToList();
    }

    private static Parsed<double[]> ReadPasses(string text)
    {
        List<double> passes = [];
        foreach (string part in text.Split(','))
        {
            if (!NumberText.TryRead(part, out double degrees) || degrees is not (> 6.0 and <= 90.0))
            {
                return new ParseError("--passes", 0, 0, $"{Quoted.Of(part)} is not a highest elevation above 6 and up to 90 degrees; write them like 15,45,88");
            }

            passes.Add(degrees);
        }

        return passes.ToArray();
    }

    private static Parsed<Steering[]> ReadSteerings(string text)
    {
        List<Steering> chosen = [];
        foreach (string part in text.Split(','))
        {
            if (Steerings.All(s => !string.Equals(s.Name, part, StringComparison.Ordinal)))
            {
                return new ParseError("--steering", 0, 0, $"{Quoted.Of(part)} is not a way of steering; choose {string.Join(", ", Steerings.Select(s => s.Name))}");
            }

            chosen.Add(Steerings.First(s => string.Equals(s.Name, part, StringComparison.Ordinal)).Steering);
        }

        return chosen.OrderBy(s => s == Steering.Perfect ? 0 : 1).ToArray();
    }

    private static Parsed<HandSkill[]> ReadHands(string? text) => text switch
    {
        null => new HandSkill[] { HandSkill.Novice, HandSkill.Practised },
        "novice" => new HandSkill[] { HandSkill.Novice },
        "practised" => new HandSkill[] { HandSkill.Practised },
        _ => !InputFiles.ReadLines(text, "--hand").Try(out string[]? lines, out ParseError? error) ? error
            : !ModelFile.Hand(text, string.Join('\n', lines)).Try(out HandSkill? hand, out error) ? error
            : new HandSkill[] { hand },
    };

    private static Parsed<WorldModel> ReadWorld(string text) => text switch
    {
        "honest" => WorldModel.Honest,
        "today" => WorldModel.Today,
        _ => InputFiles.ReadLines(text, "--world").Try(out string[]? lines, out ParseError? error) ? ModelFile.World(text, string.Join('\n', lines)) : error,
    };
}
