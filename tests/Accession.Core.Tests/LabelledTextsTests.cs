using System.Text.Json;
using Accession.Core.Gatherings;
using Accession.Core.People;
using Accession.Tests;

namespace Accession.Core.Tests;

/// <summary>
/// Texts of real labels with what one reader sees in them: open data of many herbaria, labelled by hand. The shares
/// asked for are what the rules reach; the files are small, so one text weighs about two hundredths.
/// </summary>
public sealed class LabelledTextsTests
{
    private static readonly string[] Parts = ["family", "given", "particle", "second", "suffix"];

    [Fact]
    public void Reads_the_collectors_as_a_person_does()
    {
        // Parts compared without stops and spaces, and case apart.
        Compare("collectors-labelled.jsonl", 0.98, (label, raw) =>
        {
            var wanted = label.GetProperty("persons").EnumerateArray()
                .Select(p => Form([.. Parts.Select(part => Text(p, part))]));
            var reading = Collectors.Read(raw);
            var persons = reading.IsRead ? reading.Value.Persons : [];
            var read = persons.Select(p => Form(p.Family, p.Given, p.Particle, p.Second, p.Suffix));
            return wanted.SequenceEqual(read)
                && label.GetProperty("etAl").GetBoolean() == (reading.IsRead && reading.Value.EtAl);
        });
    }

    [Fact]
    public void Reads_the_numbers_as_a_person_does()
    {
        Compare("numbers-labelled.jsonl", 0.97, (label, raw) =>
        {
            var reading = CollectorNumber.Read(raw);
            var first = reading.IsRead ? reading.Value.First : null;
            var prefix = first?.Prefix ?? (reading.IsRead ? reading.Value.PrefixWithoutNumber : "");
            return Form(Text(label, "prefix"), Text(label, "suffix")) == Form(prefix, first?.Suffix ?? "")
                && Text(label, "number").TrimStart('0') == (first?.Number ?? "").TrimStart('0')
                && label.GetProperty("sn").GetBoolean() == (reading.IsRead && reading.Value.IsWithoutNumber);
        });
    }

    private static void Compare(string file, double share, Func<JsonElement, string, bool> isRight)
    {
        var lines = File.ReadLines(ReferenceData.Require("samples", file)).Where(l => l.Length > 0).ToList();
        var wrong = new List<string>();
        foreach (var line in lines)
        {
            using var label = JsonDocument.Parse(line);
            var raw = label.RootElement.GetProperty("raw").GetString()!;
            if (!isRight(label.RootElement, raw))
            {
                wrong.Add(raw);
            }
        }

        Assert.True(
            lines.Count - wrong.Count >= share * lines.Count,
            $"{wrong.Count} of {lines.Count} are wrong: {string.Join(" · ", wrong)}");
    }

    private static string Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) ? value.GetString() ?? "" : "";

    private static string Form(params string[] parts) =>
        string.Join("|", parts.Select(p => string.Concat(p.Where(c => c is not ('.' or ' '))).ToLowerInvariant()));
}
