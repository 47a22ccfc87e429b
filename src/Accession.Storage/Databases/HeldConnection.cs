using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases;

/// <summary>A connection that stays open until this is disposed.</summary>
internal sealed class HeldConnection(AccessionDb db) : IAsyncDisposable
{
    public async ValueTask DisposeAsync() => await db.Database.CloseConnectionAsync();
}
