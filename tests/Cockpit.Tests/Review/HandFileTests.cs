using Cockpit.Commands;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Settings;

namespace Cockpit.Tests.Review;

/// <summary>The small file that keeps the hand between passes.</summary>
public sealed class HandFileTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("cockpit-hand").FullName;

    private string File => Path.Combine(_root, HandFile.FileName);

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private void Add(string name, string journal)
    {
        string folder = Directory.CreateDirectory(Path.Combine(_root, name)).FullName;
        System.IO.File.WriteAllText(Path.Combine(folder, "session.jsonl"), journal);
    }

    // Ten keys 1.9 s after calls of 3 degrees: 0.35 s + 0.2 s * log2(1 + 3/1.5) are the move, 1.23 s the reaction.
    private void Keep(string session, int bytes)
    {
        string keys = string.Join(',', Enumerable.Repeat("""{"after_seconds":1.9,"size_degrees":3,"turn_degrees":3}""", 10));
        System.IO.File.WriteAllText(
            File,
            $$"""{"version":1,"passes":[{"session":"{{session}}","bytes":{{bytes}},"steered":true,"keys":[{{keys}}],"amount":{"value":0.8,"sd":0.05,"count":12} }] }""");
    }

    [Fact]
    public void What_is_kept_of_a_journal_that_is_the_same_is_believed()
    {
        Add("2026-11-01T180000Z-petrel-2", "12345\n");
        Keep("2026-11-01T180000Z-petrel-2", 6);
        LearntHand learnt = HandFile.Read(_root, TimeProvider.System);
        Assert.Equal(1.23, learnt.ReactionSeconds!.Value.Value, 0.01);
        Assert.Null(learnt.Amount); // a single pass tells no amount
    }

    [Fact]
    public void What_is_old_broken_or_missing_is_made_again_and_stops_nothing()
    {
        Add("2026-11-01T180000Z-petrel-2", "this is no journal\n");
        Keep("2026-11-01T180000Z-petrel-2", 6);
        Assert.Null(HandFile.Read(_root, TimeProvider.System).Settings());
        Assert.Contains("\"steered\": false", System.IO.File.ReadAllText(File), StringComparison.Ordinal);
        System.IO.File.WriteAllText(File, "{\"version\":1,\"passes\":[nu");
        Assert.Null(HandFile.Read(_root, TimeProvider.System).Settings());
        System.IO.File.Delete(File);
        Assert.Null(HandFile.Read(_root, TimeProvider.System).Settings());
        Assert.Null(HandFile.Read(Path.Combine(_root, "no"), TimeProvider.System).Settings());
    }

    [Fact]
    public void A_hand_that_is_learnt_goes_into_the_settings_unless_another_is_asked_for()
    {
        SessionSettings settings = Cockpit.Session.Rehearsal.Demo.Of(1, "").Settings;
        Assert.Equal((settings, null), ChosenHand.In(settings, null, _root));
        Assert.StartsWith("hand: novice, for too little", ChosenHand.In(settings, HandChoice.Learnt, _root).Line, StringComparison.Ordinal);

        Add("2026-11-01T180000Z-petrel-2", "12345\n");
        Keep("2026-11-01T180000Z-petrel-2", 6);
        (SessionSettings with, string? line) = ChosenHand.In(settings, null, _root);
        Assert.Equal(1.23, with.Hand!.ReactionSeconds!.Value, 0.01);
        Assert.StartsWith("hand: learnt from 1 pass: begins 1.23 s", line, StringComparison.Ordinal);
        (with, line) = ChosenHand.In(settings, HandChoice.Practised, _root);
        Assert.Equal((null, CockpitSettings.PractisedLead, "hand: practised"), (with.Hand, with.CueLead, line));
    }
}
