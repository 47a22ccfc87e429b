using Accession.Migrations.Sqlite;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Databases.Sqlite;
using Accession.Tests.Stores;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Tests.Databases;

/// <summary>
/// What is asked often is answered by connections that stay open; nobody may notice that, but by the time it takes.
/// </summary>
public sealed class PreparedReadersTests(SqliteTestStore store) : IClassFixture<SqliteTestStore>, IAsyncLifetime
{
    private static readonly Func<AccessionDb, string, IAsyncEnumerable<string>> Names = EF.CompileAsyncQuery(
        (AccessionDb db, string beginning) => db.Roles.Where(role => role.Name!.StartsWith(beginning))
            .Select(role => role.Name!).TagWith(AskedOften.Tag));

    private readonly PreparedReaders _readers = new();
    private readonly string _own = $"{Guid.NewGuid():N}";

    public async ValueTask InitializeAsync() => await store.MigrateAsync();

    public ValueTask DisposeAsync()
    {
        _readers.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task What_another_has_stored_is_seen_at_once()
    {
        await using var looking = Open();
        await using var storing = store.Open();
        for (var k = 1; k <= 3; k++)
        {
            storing.Roles.Add(new IdentityRole($"{_own} {k}"));
            await storing.SaveChangesAsync();

            Assert.Equal(k, await Names(looking, _own).CountAsync());
            Assert.Equal(1, _readers.Kept);
        }
    }

    [Fact]
    public async Task A_transaction_sees_what_it_has_written_and_nobody_else_does()
    {
        await using var writing = Open();
        await using var looking = Open();
        await using var transaction = await writing.Database.BeginTransactionAsync();
        writing.Roles.Add(new IdentityRole($"{_own} 1"));
        await writing.SaveChangesAsync();

        Assert.Equal(1, await Names(writing, _own).CountAsync());
        Assert.Equal(0, await Names(looking, _own).CountAsync());
    }

    [Fact]
    public async Task Many_at_once_get_each_their_own_answer()
    {
        await using (var storing = store.Open())
        {
            storing.Roles.AddRange(Enumerable.Range(100, 60).Select(k => new IdentityRole($"{_own} {k}")));
            await storing.SaveChangesAsync();
        }

        var answers = await Task.WhenAll(Enumerable.Range(100, 60).Select(k => Task.Run(async () =>
        {
            await using var looking = Open();
            List<string> all = [];
            for (var times = 0; times < 20; times++)
            {
                all.AddRange(await Names(looking, $"{_own} {k}").ToListAsync());
            }

            return all;
        })));

        Assert.All(answers, (all, k) =>
        {
            Assert.Equal(20, all.Count);
            Assert.All(all, name => Assert.Equal($"{_own} {k + 100}", name));
        });
    }

    [Fact]
    public async Task A_table_that_was_changed_in_between_is_read_as_it_is_now()
    {
        await using var looking = Open();
        await using var changing = store.Open();
        Assert.Equal(0, await Names(looking, _own).CountAsync());

        await changing.Database.ExecuteSqlRawAsync(
            "CREATE INDEX ix_of_this_test ON asp_net_roles (name)", TestContext.Current.CancellationToken);
        changing.Roles.Add(new IdentityRole(_own));
        await changing.SaveChangesAsync();

        Assert.Equal(1, await Names(looking, _own).CountAsync());
    }

    [Fact]
    public async Task An_answer_that_nobody_reads_to_its_end_leaves_the_statement_free()
    {
        await using (var storing = store.Open())
        {
            storing.Roles.AddRange(Enumerable.Range(1, 9).Select(k => new IdentityRole($"{_own} {k}")));
            await storing.SaveChangesAsync();
        }

        await using var looking = Open();
        for (var times = 0; times < 40; times++)
        {
            await foreach (var name in Names(looking, _own))
            {
                Assert.StartsWith(_own, name, StringComparison.Ordinal);
                break;
            }
        }

        Assert.Equal(9, await Names(looking, _own).CountAsync());
    }

    private AccessionDb Open()
    {
        var options = new DbContextOptionsBuilder<AccessionDb>().UseIdentitySchema();
        options.UseAccessionSqlite(store.File, _readers);
        return new(options.Options, store.Database, store.Bell);
    }
}
