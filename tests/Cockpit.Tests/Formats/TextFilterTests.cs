using System.Text;
using Cockpit.Core.Formats;

namespace Cockpit.Tests.Formats;

public sealed class TextFilterTests
{
    [Theory]
    [InlineData("PETREL 2", "PETREL 2")]
    [InlineData("\u001B]0;owned\u0007", "\uFFFD]0;owned\uFFFD")]
    [InlineData("a\u009B31m\u009D0;x\u009C", "a\uFFFD31m\uFFFD0;x\uFFFD")]
    [InlineData("\u202Eabc\u202C \u2066x\u2069 \u200E\u200F\u061C", "\uFFFDabc\uFFFD \uFFFDx\uFFFD \uFFFD\uFFFD\uFFFD")]
    [InlineData("one\ntwo\tthree\u2028four\u2029", "one\uFFFDtwo\uFFFDthree\uFFFDfour\uFFFD")]
    [InlineData("\uD83D\uDEF0 X \u885B\u661F e\u0301", "\uD83D\uDEF0 X \u885B\u661F e\u0301")]
    [InlineData("\U0001F469\u200D\U0001F680", "\U0001F469\u200D\U0001F680")]
    [InlineData("\uFEFFmark\u00AD\U000E0041", "\uFFFDmark\uFFFD\uFFFD")]
    public void What_a_terminal_obeys_is_replaced_and_all_else_stays(string text, string clean) => Assert.Equal(clean, TextFilter.Clean(text));

    // Not as inline data: an attribute cannot hold half a pair.
    [Fact]
    public void Half_a_surrogate_pair_is_replaced() => Assert.Equal("half \uFFFD of a pair \uFFFD", TextFilter.Clean("half \uD83D of a pair \uDEF0"));

    [Fact]
    public void A_clean_text_is_the_same_object()
    {
        string text = new("PETREL 2 \u885B\u661F".AsSpan());
        Assert.Same(text, TextFilter.Clean(text));
    }

    // ECMA-48: C0 is 00-1F, C1 is 80-9F; Unicode 15, PropList.txt, Bidi_Control.
    [Fact]
    public void Every_control_and_bidirectional_character_is_harmful()
    {
        int[] bidirectional = [0x061C, 0x200E, 0x200F, 0x202A, 0x202B, 0x202C, 0x202D, 0x202E, 0x2066, 0x2067, 0x2068, 0x2069];
        Assert.All(Enumerable.Range(0, 0x20).Append(0x7F).Concat(Enumerable.Range(0x80, 0x20)).Concat(bidirectional), value => Assert.True(TextFilter.IsHarmful(new Rune(value)), $"U+{value:X4}"));
    }

    [Fact]
    public void A_quoted_piece_shows_what_it_hides() => Assert.Equal("'a\\u202eb\\u009b'", Quoted.Of("a\u202Eb\u009B"));
}
