using System.Runtime.CompilerServices;
using Accession.Core.Determinations;
using Accession.Core.Specimens;
using Accession.Core.Texts;
using Accession.Storage.Verifying;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Finding;

/// <summary>
/// The words of all plant names in the register: some thousand, however many sheets there are. They are written when an
/// opinion is stored, in the same transaction, and never taken away, as no opinion is.
/// </summary>
public static class NameWords
{
    private const int Slice = 500;

    /// <summary>The words that can be mended: letters only, neither very short nor very long.</summary>
    public static IEnumerable<string> In(string name) =>
        FindText.WordsAsked(name).Where(word => NearWords.Forgiven(word) > 0);

    /// <summary>All words.</summary>
    public static Task<List<string>> AllAsync(AccessionDb db, CancellationToken cancellation) =>
        db.Set<NameWord>().AsNoTracking().Select(w => w.Word).Distinct().ToListAsync(cancellation);

    /// <summary>Adds the words of names that are stored for the first time.</summary>
    internal static async Task AddAsync(AccessionDb db, IEnumerable<string> names, CancellationToken cancellation)
    {
        foreach (var words in names.Distinct().SelectMany(In).Distinct().Chunk(Slice))
        {
            var known = await db.Set<NameWord>().Where(w => words.Contains(w.Word)).Select(w => w.Word)
                .ToListAsync(cancellation);
            known.AddRange(db.ChangeTracker.Entries<NameWord>().Select(entry => entry.Entity.Word));
            db.AddRange(words.Except(known).Select(word => new NameWord(word)));
        }
    }

    /// <summary>Writes the words of a register from before; nothing is done where there are any.</summary>
    public static async Task BringUpAsync(AccessionDb db, CancellationToken cancellation)
    {
        if (await db.Set<NameWord>().AnyAsync(cancellation) || !await db.Determinations.AnyAsync(cancellation))
        {
            return;
        }

        var names = await db.Determinations.Select(d => d.Name).Distinct().ToListAsync(cancellation);
        await AddAsync(db, names, cancellation);
        await db.SaveChangesAsync(cancellation);
        db.ChangeTracker.Clear();
    }

    /// <summary>The words of names that do not stand here, though a sheet bears them.</summary>
    public static async IAsyncEnumerable<Disagreement> MissingAsync(
        AccessionDb db, string check, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var known = (await AllAsync(db, cancellation)).ToHashSet();
        var names = db.Determinations.Select(d => d.Name).Distinct().AsAsyncEnumerable();
        await foreach (var name in names.WithCancellation(cancellation))
        {
            if (In(name).FirstOrDefault(word => !known.Contains(word)) is { } missing)
            {
                yield return new(check, $"name {name}", "not there", missing);
            }
        }
    }

    /// <summary>The names of opinions that are stored now.</summary>
    internal static IReadOnlyList<string> Added(AccessionDb db) =>
    [
        .. db.ChangeTracker.Entries<Determination>().Where(entry => entry.State == EntityState.Added)
            .Select(entry => entry.Entity.Name),
    ];
}
