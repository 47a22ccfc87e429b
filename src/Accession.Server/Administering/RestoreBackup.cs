using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>Puts a backup back where nothing is: all of it, or nothing.</summary>
internal sealed class RestoreBackup(AccessionDb db, RestoredRegister restored)
{
    /// <summary>Why a backup cannot be put back here, before anything is touched; null when it can.</summary>
    public async Task<string?> WhyNotAsync(
        BackupManifest manifest, string folder, CancellationToken cancellation)
    {
        if (manifest.Database != db.Kind.Name)
        {
            return $"The backup is of a register on {manifest.Database}, and the settings name one on {db.Kind.Name}. "
                + "See Store:Kind; a backup does not move a register from one to the other.";
        }

        return !db.Database.GetMigrations().Contains(manifest.Migration)
                ? $"The backup was made by version {manifest.Program} of the program, which is newer than this one "
                    + $"({MakeBackup.Version}). Restore it with that version."
            : RestoringFolder.WhyNot(folder) is { } reason ? reason
            : await db.Kind.Whole.IsFreeAsync(db, cancellation) ? null
            : "The database that Store:Connection names has tables already. A restore never writes over anything: name "
                + "an empty one.";
    }

    /// <summary>Fills the folder and the register, and shows both when all of it is done.</summary>
    /// <exception cref="BackupRefusedException">It could not be done, and nothing is left of it.</exception>
    public async Task<RestoredRegister.Restored> RunAsync(
        OpenedBackup backup, RestoringFolder folder, CancellationToken cancellation)
    {
        foreach (var part in backup.Manifest.Parts
            .Where(part => part.Name.StartsWith(BackupManifest.Lists, StringComparison.Ordinal)
                || part.Name.StartsWith(BackupManifest.Papers, StringComparison.Ordinal)))
        {
            await using var content = backup.Open(part.Name);
            await folder.KeepAsync(part.Name, content, cancellation);
        }

        await using var alone = await db.Kind.HoldStartAsync(db, cancellation);
        RestoredRegister.Restored? done = null;
        var reason = await db.Kind.Whole.PutBackAsync(
            db, new(backup.Manifest.Migration, backup.Manifest.Tables, backup.Open, FinishAsync), cancellation);
        if (reason is not null)
        {
            throw new BackupRefusedException(reason);
        }

        if (db.Kind.Whole.IsInDataFolder)
        {
            folder.Show();
        }

        folder.Keep();
        return done!;

        async Task<string?> FinishAsync()
        {
            var outcome = await restored.RunAsync(backup.Manifest.TakenAt, cancellation);
            if (outcome.IsRefused)
            {
                return outcome.Refusals[0].Reason;
            }

            done = outcome.Value;
            if (!db.Kind.Whole.IsInDataFolder)
            {
                folder.Show();   // before the register is committed: lists without a register harm nobody
            }

            return null;
        }
    }
}
