using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Commands;

/// <summary>Hands and worlds that are kept as files, for the figures of the guidance.</summary>
public sealed class GuidanceFilesTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "tests", "data", "guidance");

    [Fact]
    public void Every_world_differs_from_the_usual_one_and_has_a_name_of_its_own()
    {
        WorldModel[] worlds = [.. Directory.GetFiles(Folder, "world-*.json").Order(StringComparer.Ordinal).Select(path => Read(path, ModelFile.World))];
        Assert.Equal(11, worlds.Length);
        Assert.Equal(worlds.Length, worlds.Select(w => w.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.All(worlds, world => Assert.NotEqual(WorldModel.Honest, world with { Name = WorldModel.Honest.Name }));
    }

    [Fact]
    public void Every_hand_differs_from_the_one_that_it_is_like()
    {
        HandSkill[] hands = [.. Directory.GetFiles(Folder, "hand-*.json").Order(StringComparer.Ordinal).Select(path => Read(path, ModelFile.Hand))];
        Assert.Equal(10, hands.Length);
        Assert.All(hands, hand =>
        {
            HandSkill like = hand.Name.StartsWith("novice", StringComparison.Ordinal) ? HandSkill.Novice : HandSkill.Practised;
            Assert.NotEqual(like, hand with { Name = like.Name });
            Assert.Equal(like.SizeError, hand.SizeError);
        });
    }

    private static T Read<T>(string path, Func<string, string, Parsed<T>> read)
        where T : class
    {
        Assert.True(read(path, File.ReadAllText(path)).Try(out T? model, out ParseError? error), error?.ToString());
        return model!;
    }
}
