using System.Text;
using Accession.Core.Standards;
using Accession.Core.Standards.DarwinCore;

namespace Accession.Core.Tests.Standards;

public sealed class OneLineTests
{
    [Theory]
    [InlineData(null, "")]
    [InlineData("", "")]
    [InlineData("sagebrush steppe", "sagebrush steppe")]
    [InlineData("  two  blanks  ", "  two  blanks  ")]             // what was written stays written
    [InlineData("a\tb", "a b")]
    [InlineData("a\nb", "a b")]
    [InlineData("a\rb", "a b")]
    [InlineData("a\r\nb", "a b")]                                  // one break, one space
    [InlineData("a\r\r\nb", "a  b")]
    [InlineData("a\n\rb", "a  b")]
    [InlineData("a\r", "a ")]
    [InlineData("\u0001a\u0000b\u001F", " a b ")]
    [InlineData("a\u007Fb\u0085c\u009Fd", "a b c d")]              // U+0085 is a line break to some readers
    [InlineData("a\u2028b\u2029c", "a b c")]
    [InlineData("a\u00A0b", "a\u00A0b")]                           // a no-break space breaks nothing
    [InlineData("<a href=\"x\">&amp;'", "<a href=\"x\">&amp;'")]
    [InlineData("🌿 \u202Eדגנים\u202C", "🌿 \u202Eדגנים\u202C")]
    public void Reads_as_one_line(string? text, string line)
    {
        Assert.Equal(line, OneLine.Of(text));
        Assert.Equal(line, OfBytes(text ?? ""));
    }

    [Fact]
    public void Half_a_pair_becomes_the_replacement_character()
    {
        // Written as codes: such a text cannot stand in a source file.
        var high = ((char)0xD83C).ToString();
        var low = ((char)0xDF3F).ToString();
        Assert.Equal("a\uFFFD", OneLine.Of("a" + high));
        Assert.Equal("\uFFFDa", OneLine.Of(low + "a"));
        Assert.Equal("\uFFFD\uFFFD", OneLine.Of(low + high));
        Assert.Equal("\uFFFD" + high + low, OneLine.Of(high + high + low));
    }

    [Fact]
    public void A_clean_text_is_the_same_object()
    {
        var text = new string("Elymus elymoides");
        Assert.Same(text, OneLine.Of(text));
    }

    [Fact]
    public void The_list_for_queries_is_the_rule()
    {
        Assert.Equal(67, OneLine.Breaking.Length);   // 32 + 33 + 2
        for (var code = 0; code < 0xD800; code++)
        {
            var c = (char)code;
            Assert.Equal(OneLine.Breaking.Contains(c) ? " " : c.ToString(), OneLine.Of(c.ToString()));
        }
    }

    [Fact]
    public void Bytes_read_as_the_same_line_as_their_text()
    {
        for (var code = 0; code <= char.MaxValue; code++)
        {
            if (!char.IsSurrogate((char)code))
            {
                var text = $"a{(char)code}b{(char)code}";
                Assert.Equal(OneLine.Of(text), OfBytes(text));
            }
        }
    }

    [Fact]
    public void Bytes_of_random_texts_read_as_the_same_line()
    {
        var random = new Random(7);
        const string alphabet = "ab \t\r\n\u0000\u007F\u0080\u0085\u009F\u00A0\u00BF\u2027\u2028\u2029\u202A°é€漢";
        for (var i = 0; i < 20_000; i++)
        {
            var text = new string(random.GetItems(alphabet.AsSpan(), random.Next(40)));
            Assert.Equal(OneLine.Of(text), OfBytes(text));
        }
    }

    private static string OfBytes(string text)
    {
        var utf8 = Encoding.UTF8.GetBytes(text);
        var line = new byte[utf8.Length];
        return Encoding.UTF8.GetString(line, 0, OneLine.Of(utf8, line));
    }

    [Fact]
    public void A_line_has_its_cells_and_one_end()
    {
        Assert.Equal("a b\t\tc\"\n", ArchiveLine.Of(["a\tb", null, "c\""]));
        Assert.Equal("I. Person | J. Other", ArchiveLine.List(["I. Person", null, " ", "J. Other"]));
    }
}
