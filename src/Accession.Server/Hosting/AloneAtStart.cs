using Accession.Storage;
using Accession.Storage.Databases;

namespace Accession.Server.Hosting;

/// <summary>What a start holds while nobody else may make the same register ready.</summary>
internal sealed class AloneAtStart(IDisposable folder, AsyncServiceScope scope) : IAsyncDisposable
{
    private IAsyncDisposable? _register;

    public async Task HoldRegisterAsync(CancellationToken cancellation) =>
        _register = await scope.ServiceProvider.GetRequiredService<IDatabase>()
            .HoldStartAsync(scope.ServiceProvider.GetRequiredService<AccessionDb>(), cancellation);

    public async ValueTask DisposeAsync()
    {
        try
        {
            if (_register is not null)
            {
                await _register.DisposeAsync();
            }
        }
        finally
        {
            await scope.DisposeAsync();
            folder.Dispose();
        }
    }
}
