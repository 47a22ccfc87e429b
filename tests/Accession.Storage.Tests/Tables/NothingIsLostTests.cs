using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

/// <summary>Files put together by chance from what breaks readers, with fixed seeds.</summary>
public sealed class NothingIsLostTests : TableTests
{
    private static readonly string[] Pieces =
    [
        "\"", "\"", "\"\"", ",", ",", ",", "\n", "\n", "\r\n", "a", "b c", "12", " ", "\t", ";", "\0", "é", "#N/A",
        "=\"1\"",
    ];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Each_line_with_something_on_it_is_in_exactly_one_row(int seed)
    {
        var random = new Random(seed);
        for (var file = 0; file < 150; file++)
        {
            var text = "Collector,Number,Date\n" + string.Concat(
                Enumerable.Range(0, random.Next(1, 120)).Select(_ => Pieces[random.Next(Pieces.Length)]));
            var outcome = TableReader.Open(Text(text));
            if (outcome.IsRefused)
            {
                Assert.All(outcome.Refusals, refusal => Assert.EndsWith(".", refusal.Reason, StringComparison.Ordinal));
                continue;
            }

            AssertEachLineOnce(text, outcome.Value);
        }
    }

    [Fact]
    public void A_file_cut_off_anywhere_opens_or_is_refused_with_a_sentence()
    {
        var path = HandMadeWorkbook.Write(PathOf("whole.xlsx"), ("List", "visible",
            HandMadeWorkbook.Row(1, "Number", "Place") + HandMadeWorkbook.Row(2, "1", "Mill")));
        var whole = File.ReadAllBytes(path);

        for (var length = 1; length < whole.Length; length += 7)
        {
            Assert.NotEmpty(Refused(Bytes(whole[..length])));
        }
    }

    [Fact]
    public void A_workbook_with_a_byte_changed_anywhere_does_no_harm()
    {
        var path = HandMadeWorkbook.Write(PathOf("whole.xlsx"), ("List", "visible",
            HandMadeWorkbook.Row(1, "Number", "Place") + HandMadeWorkbook.Row(2, "1", "Mill")));
        var whole = File.ReadAllBytes(path);
        var random = new Random(1);

        for (var i = 0; i < 400; i++)
        {
            var bytes = whole.ToArray();
            bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
            var outcome = TableReader.Open(Bytes(bytes));
            if (!outcome.IsRefused)
            {
                _ = outcome.Value.Rows().Count();   // whatever stands there now, reading it ends
            }
        }
    }

    private static void AssertEachLineOnce(string text, Table table)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var times = new int[lines.Length + 1];
        var tally = new TableTally();
        var count = 0;
        foreach (var row in table.Rows(tally))
        {
            count++;
            for (var line = row.Line; line <= row.LastLine; line++)
            {
                times[line]++;
            }
        }

        Assert.Equal(count, tally.Read + tally.Refused);
        for (var line = table.LastHeaderLine + 1; line <= lines.Length; line++)
        {
            var blank = lines[line - 1].All(c => c is ',' or '"' or ' ' or '\t' or ';');
            Assert.True(
                times[line] == 1 || times[line] == 0 && blank,
                $"Line {line} is in {times[line]} rows of {text.ReplaceLineEndings("\\n")}");
        }
    }
}
