using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

/// <summary>The table that people learn the sounds from.</summary>
public sealed class SoundTableTests
{
    [Fact]
    public void Every_family_of_cues_has_its_row() => Assert.Equal(
        Enum.GetValues<CueKind>().Order(),
        SoundTable.Rows.Select(row => row.Cue?.Kind).OfType<CueKind>().Distinct().Order());

    [Fact]
    public void No_two_rows_sound_the_same() => Assert.Equal(
        SoundTable.Rows.Where(row => row.Cue is not null).Select(row => row.Name),
        SoundTable.Rows.Where(row => row.Cue is not null).DistinctBy(row => string.Join(';', row.Cue!.Tones)).Select(row => row.Name));
}
