using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Hosting;

/// <summary>Whether there is a register, and whether this version of the program can work with it.</summary>
internal enum RegisterAtHand
{
    /// <summary>There is none: no file, or a database without tables.</summary>
    None,

    /// <summary>It is of an earlier version.</summary>
    Earlier,

    /// <summary>It is of this version.</summary>
    Current,

    /// <summary>It is of a later version, which this one does not know.</summary>
    Newer,
}

/// <summary>Asks for it, without making any.</summary>
internal static class RegistersAtHand
{
    public const string IsNewer = "The register is of a newer version of the program. Use that version, or restore a "
        + "backup of this one into another folder.";

    public static async Task<RegisterAtHand> OfAsync(AccessionDb db, CancellationToken cancellation)
    {
        var applied = (await db.Database.GetAppliedMigrationsAsync(cancellation)).ToHashSet();
        var known = db.Database.GetMigrations().ToHashSet();
        return applied.Count == 0 ? RegisterAtHand.None
            : !applied.IsSubsetOf(known) ? RegisterAtHand.Newer
            : applied.Count < known.Count ? RegisterAtHand.Earlier
            : RegisterAtHand.Current;
    }

    /// <summary>Refuses whatever this version cannot work with.</summary>
    /// <exception cref="CommandRefusedException">There is no register of this version.</exception>
    public static async Task RequireAsync(IServiceProvider services, CancellationToken cancellation)
    {
        var db = services.GetRequiredService<AccessionDb>();
        if (WhyNot(await OfAsync(db, cancellation), services.GetRequiredService<DataFolder>()) is { } reason)
        {
            throw new CommandRefusedException(reason);
        }
    }

    /// <summary>Why a command cannot work with it; null when it can.</summary>
    public static string? WhyNot(RegisterAtHand register, DataFolder folder) => register switch
    {
        RegisterAtHand.None => $"There is no register in {folder.Root}. Name its folder with --data.",
        RegisterAtHand.Earlier => "The register is of an earlier version of the program. accession migrate brings it "
            + "up to this one, and so does starting the server.",
        RegisterAtHand.Newer => IsNewer,
        _ => null,
    };
}
