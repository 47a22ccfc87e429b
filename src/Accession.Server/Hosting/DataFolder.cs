using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>The one folder that holds everything, and what lies where in it.</summary>
public sealed class DataFolder(IOptions<StoreOptions> options)
{
    public string Root { get; } = Path.GetFullPath(options.Value.DataFolder);

    public string RegisterFile => Path.Combine(Root, "register.db");

    public string Lists => Made("lists");

    /// <summary>Papers that came with batches, each under its hash.</summary>
    public string Papers => Made("papers");

    public string Archives => Made("archives");

    /// <summary>Letters that go nowhere by themselves, a file for each.</summary>
    public string MailOut => Made(Path.Combine("mail", "out"));

    /// <summary>Holds off every other process on this machine while it is open: for migrating.</summary>
    public async Task<IDisposable> LockAsync(TimeProvider clock, CancellationToken cancellation)
    {
        try
        {
            Directory.CreateDirectory(Root);
        }
        catch (IOException unusable)
        {
            throw new WrongSettingException($"The data folder cannot be used: {unusable.Message}");
        }

        var until = clock.GetUtcNow() + TimeSpan.FromMinutes(2);
        while (true)
        {
            try
            {
                return new FileStream(
                    Path.Combine(Root, "accession.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (clock.GetUtcNow() < until)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(100), clock, cancellation);
            }
        }
    }

    private string Made(string name) => Directory.CreateDirectory(Path.Combine(Root, name)).FullName;
}
