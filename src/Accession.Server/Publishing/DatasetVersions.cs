using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Publishing;

/// <summary>
/// What identifies the data set, and how often it was published. Both are read from the acts: the identifier is the
/// answer of the act that began the data set, so it is kept, backed up and shared by all servers like the register
/// itself, and each archive is one act.
/// </summary>
public sealed class DatasetVersions(AccessionDb db)
{
    /// <summary>The act by which an archive is built.</summary>
    public const string Building = "build the archive";

    private const string Beginning = "begin the data set";

    /// <summary>A version of the data set.</summary>
    /// <param name="Identifier">The same in every archive.</param>
    /// <param name="Number">Counts the archives, from 1.</param>
    /// <param name="At">When it was asked for.</param>
    public sealed record DatasetVersion(Guid Identifier, int Number, DateTime At);

    /// <summary>Begins the data set within the act of its first archive; later acts find it begun.</summary>
    public async Task EnsureBegunAsync(DateTime at, CancellationToken cancellation)
    {
        if (!await db.Acts.AnyAsync(act => act.What == Beginning, cancellation))
        {
            var beginning = Act.Of(Door.System, Beginning, at);
            beginning.Answered(Guid.NewGuid().ToString("D"));
            db.Add(beginning);
        }
    }

    /// <summary>The version that an act of building makes.</summary>
    public async Task<DatasetVersion> OfAsync(long actId, CancellationToken cancellation)
    {
        var identifier = await db.Acts.Where(act => act.What == Beginning).OrderBy(act => act.Id)
            .Select(act => act.Answer!).FirstAsync(cancellation);
        var number = await db.Acts.CountAsync(act => act.What == Building && act.Id <= actId, cancellation);
        var at = await db.Acts.Where(act => act.Id == actId).Select(act => act.At).SingleAsync(cancellation);
        return new(Guid.ParseExact(identifier, "D"), number, at);
    }
}
