using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Matching;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Matching;

/// <summary>Signatures are small, come back from their bytes, and are made of any text.</summary>
public sealed class SignatureTests
{
    private static readonly Row Plain = new(
        "J. R. Sandover & A. Pell", "JRS-812a", "2026-06-14", "Rim of Dry Basin", "Harney", "Lomatium hendersonii",
        "Apiaceae", "43.58642", "-119.05417");

    [Fact]
    public void It_comes_back_from_its_bytes()
    {
        var signature = Plain.Signature;
        var bytes = signature.ToBytes();
        Assert.Equal(Signature.Size, bytes.Length);
        Assert.InRange(bytes.Length, 64, 128);
        var back = Signature.FromBytes(bytes);
        Assert.Equal(bytes, back.ToBytes());
        Assert.Equal(Comparison.Between(signature, signature), Comparison.Between(back, signature));
        Assert.Equal(MatchKeys.Of(signature, Identities.None), MatchKeys.Of(back, Identities.None));
        Assert.Equal(new DateOnly(2026, 6, 14).DayNumber, back.Day);
    }

    [Fact]
    public void Bytes_of_another_length_or_version_are_refused()
    {
        var bytes = Plain.Signature.ToBytes();
        Assert.Throws<FormatException>(() => Signature.FromBytes(bytes.AsSpan(1)));
        bytes[0]++;
        Assert.Throws<FormatException>(() => Signature.FromBytes(bytes));
    }

    [Fact]
    public void The_stored_form_does_not_change_unnoticed()
    {
        // What this program gave when version 1 was made: a reading or layout that changes them is another version.
        var keys = MatchKeys.Of(Plain.Signature, new() { OccurrenceID = "urn:x:1" });
        Assert.Equal(
            [
                "NameAndNumber", "NameAndNumber", "NumberAndDay", "NameAndDay", "NameAndDay", "NameAndPlant",
                "PlantAndDay", "Occurrence",
            ],
            keys.Select(key => key.Kind.ToString()));
        Assert.Equal(KnownKey, keys[0].Value);
        Assert.Equal(1, Signature.CurrentVersion);
    }

    private const long KnownKey = 1937225670425823311;

    [Fact]
    public void A_protected_place_wants_its_exact_one()
    {
        var row = new RowReading(
            new FieldNotes { CollectorsVerbatim = "A. Pell", RecordNumber = "7", NumberKey = "|7|" },
            new PublicPlace { Latitude = 43.58642, Longitude = -119.05417, Locality = "Rim of Dry Basin" },
            1,
            []);
        var gathering = Gathering.TakeIn(1, 1, 1, row);
        var open = Signature.Of(gathering, null);
        var act = Act.Of(Door.System, "protect", new(2026, 6, 14, 0, 0, 0, DateTimeKind.Utc), "rare");
        var held = gathering.Protect(
            new(SensitivityCategory.High, new DateOnly(2030, 1, 1)), null, act).Value;
        Assert.Throws<ArgumentException>(() => Signature.Of(gathering, null));
        Assert.Equal(open.ToBytes(), Signature.Of(gathering, held).ToBytes());
        Assert.NotEqual(open.ToBytes(), Signature.Of(gathering.Notes, gathering.Place).ToBytes());
    }

    [Fact]
    public void Any_text_has_a_signature()
    {
        var texts = RandomTexts.Of(seed: 14, count: 2_000).ToList();
        texts.Add(new string('a', 10_000));
        texts.Add(string.Concat(Enumerable.Repeat("A. Pell & ", 2_000)));
        var previous = Plain.Signature;
        for (var i = 0; i < texts.Count; i++)
        {
            string At(int step) => texts[(i + step) % texts.Count];
            var row = new Row(At(0), At(1), At(2), At(3), At(4), At(5), At(6), At(7), At(8)) { State = At(9) };
            var signature = row.Signature;
            Assert.True(MatchKeys.Of(signature, Identities.None).Count <= 24);
            var comparison = Comparison.Between(signature, previous);
            Assert.Equal(comparison, Comparison.Between(previous, signature));
            Assert.Equal(comparison.Evidence, Evidence.FromPacked(comparison.Evidence.Packed));
            Assert.NotEmpty(comparison.Evidence.Sentences(comparison.Kind));
            previous = signature;
        }
    }

    [Fact]
    public void Comparing_allocates_nothing()
    {
        var one = Plain.Signature;
        var other = (Plain with { Collector = "J. R. Sandovre", Number = "821" }).Signature;
        _ = Comparison.Between(one, other);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1_000; i++)
        {
            _ = Comparison.Between(one, other);
        }

        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }
}
