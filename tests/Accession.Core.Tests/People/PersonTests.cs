using Accession.Core.Outcomes;
using Accession.Core.People;

namespace Accession.Core.Tests.People;

public sealed class PersonTests
{
    private static readonly DateTime Now = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private static Act An(string? reason = null) => Act.Of(Door.System, "test", Now, reason);

    private static Person Quill() => Person.OnRecord(" Ada Quill ", An()).Value;

    [Theory]
    [InlineData(null)]
    [InlineData("  ")]
    public void Needs_a_name(string? name) => Assert.True(Person.OnRecord(name, An()).IsRefused);

    [Fact]
    public void Is_known_under_several_spellings_each_once()
    {
        var person = Quill();
        var version = person.Version;

        Assert.Null(person.KnowAs("A. Quill", An()));
        Assert.Null(person.KnowAs("Quill, A.", An()));

        Assert.Equal(["A. Quill", "Quill, A."], person.Spellings.Select(s => s.Written));
        Assert.All(person.Spellings, spelling => Assert.Equal("quill", spelling.FamilyKey));
        Assert.NotEqual(version, person.Version);
        Assert.Equal(RefusalKind.Conflict, person.KnowAs("A. Quill", An())!.Kind);
    }

    [Fact]
    public void A_spelling_that_was_taken_back_stays_on_record_and_may_come_again()
    {
        var person = Quill();
        person.KnowAs("A. Quill", An());

        Assert.Null(person.KnowNoLongerAs("A. Quill", An()));
        Assert.Equal(RefusalKind.Conflict, person.KnowNoLongerAs("A. Quill", An())!.Kind);
        Assert.Null(person.KnowAs("A. Quill", An()));

        Assert.Equal([false, true], person.Spellings.Select(s => s.EndedAct is null));
    }

    [Fact]
    public void An_account_is_tied_with_a_reason_and_one_at_a_time()
    {
        var person = Quill();

        Assert.Equal(RefusalKind.Invalid, person.TieTo("a", An())!.Kind);
        Assert.Null(person.TieTo("a", An("met her")));
        Assert.Equal(RefusalKind.Conflict, person.TieTo("b", An("met her too"))!.Kind);
        Assert.Equal("a", person.Tie!.AccountId);
        Assert.Null(person.Untie(An()));
        Assert.Null(person.Tie);
        Assert.Equal(RefusalKind.Conflict, person.Untie(An())!.Kind);
        Assert.Null(person.TieTo("b", An("the account was lost")));
        Assert.Equal(2, person.Ties.Count);
    }
}
