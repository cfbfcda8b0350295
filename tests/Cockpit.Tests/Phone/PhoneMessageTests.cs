using System.Text;
using CsCheck;
using Cockpit.Devices.Phone;

namespace Cockpit.Tests.Phone;

public sealed class PhoneMessageTests
{
    [Fact]
    public void Each_message_of_the_page_is_read()
    {
        Assert.Equal(new PhoneMessage.Hello("ABC"), Read("""{"t":"hello","key":"ABC"}"""));
        Assert.Equal(
            new PhoneMessage.Turned(17, Absolute: true, 12.3, null, -1.2, TimeSpan.FromMilliseconds(40), Shaking: true, 213.0),
            Read("""{"t":"o","n":17,"kind":"abs","a":12.3,"b":null,"g":-1.2,"age":40,"screen":0,"shaking":true,"h":213.0,"acc":15.0}"""));
        Assert.Equal(new PhoneMessage.Turned(1, Absolute: false, 0, 0, 0, TimeSpan.Zero, Shaking: false, null), Read("""{"t":"o","n":1,"kind":"rel","a":0,"b":0,"g":0,"age":0}"""));
        Assert.Equal(new PhoneMessage.Visibility(IsHidden: true), Read("""{"t":"hidden"}"""));
        Assert.Equal(new PhoneMessage.Visibility(IsHidden: false), Read("""{"t":"shown"}"""));
        Assert.Null(Assert.IsType<PhoneMessage.Sensor>(Read("""{"t":"sensor","is":"ok"}""")).Trouble);
        Assert.Contains("allow it", Assert.IsType<PhoneMessage.Sensor>(Read("""{"t":"sensor","is":"denied"}""")).Trouble, StringComparison.Ordinal);
        Assert.Equal(new PhoneMessage.Press(PhoneButton.NotMoved, 3), Read("""{"t":"press","key":"notmoved","n":3}"""));
        Assert.Equal(new PhoneMessage.Drawn(214), Read("""{"t":"drawn","n":214}"""));
        Assert.IsType<PhoneMessage.Bye>(Read("""{"t":"bye"}"""));
        Assert.IsType<PhoneMessage.Unknown>(Read("""{"t":"weather","rain":true}"""));
    }

    [Theory]
    [InlineData("", "not one complete JSON object")]
    [InlineData("{\"t\":\"o\"", "not one complete JSON object")]
    [InlineData("[]", "no object with a type")]
    [InlineData("{\"t\":7}", "no object with a type")]
    [InlineData("{\"t\":\"o\"}", "an orientation without number or age")]
    [InlineData("{\"t\":\"o\",\"n\":1,\"a\":1e999,\"age\":1}", "'a' is no number from -360 to 720")]
    [InlineData("{\"t\":\"o\",\"n\":1,\"a\":721,\"age\":1}", "'a' is no number from -360 to 720")]
    [InlineData("{\"t\":\"o\",\"n\":1,\"b\":\"90\",\"age\":1}", "'b' is no number from -360 to 360")]
    [InlineData("{\"t\":\"o\",\"n\":1,\"age\":-1}", "'age' is no number from 0 to 600000")]
    [InlineData("{\"t\":\"o\",\"n\":1,\"age\":600001}", "'age' is no number from 0 to 600000")]
    [InlineData("{\"t\":\"press\",\"key\":\"quit\",\"n\":1}", "a button that is none, or without its number")]
    [InlineData("{\"t\":\"press\",\"key\":\"moved\"}", "a button that is none, or without its number")]
    [InlineData("{\"t\":\"drawn\"}", "drawn without its number")]
    [InlineData("{\"t\":{\"t\":{\"t\":{\"t\":{\"t\":1}}}}}", "not one complete JSON object")]
    public void What_no_page_says_is_refused_in_a_few_words(string text, string words)
    {
        Assert.Null(PhoneMessageReader.Read(Encoding.UTF8.GetBytes(text), out string? problem));
        Assert.Equal(words, problem);
    }

    [Fact]
    public void No_bytes_at_all_make_the_reader_fail()
    {
        byte[] good = Encoding.UTF8.GetBytes("""{"t":"o","n":17,"kind":"abs","a":12.3,"b":88.1,"g":-1.2,"age":40,"screen":0,"shaking":false,"h":213.0}""");
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte, Gen.Int[0, good.Length]).Array[1, 4].Sample(
            changes =>
            {
                byte[] bytes = [.. good];
                int length = good.Length;
                foreach ((int at, byte value, int cut) in changes)
                {
                    bytes[at] = value;
                    length = Math.Min(length, cut + (good.Length / 2));
                }

                PhoneMessage? message = PhoneMessageReader.Read(bytes.AsMemory(0, length), out string? problem);
                Assert.Equal(message is null, problem is not null);
                if (message is PhoneMessage.Turned turned)
                {
                    Assert.InRange(turned.Age, TimeSpan.Zero, TimeSpan.FromMinutes(10));
                    Assert.InRange(turned.Alpha ?? 0, -360, 720);
                }
            },
            seed: "0N0XIzNsQ0O2",
            iter: 20_000);
    }

    private static PhoneMessage? Read(string text)
    {
        PhoneMessage? message = PhoneMessageReader.Read(Encoding.UTF8.GetBytes(text), out string? problem);
        Assert.Null(problem);
        return message;
    }
}
