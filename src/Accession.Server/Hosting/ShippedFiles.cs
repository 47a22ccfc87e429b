using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Primitives;

namespace Accession.Server.Hosting;

/// <summary>
/// The files that come with the program. They do not change while it runs, so nobody watches them: the system lets a
/// user watch only so many folders, and a page must not fail because other programs took them all.
/// </summary>
internal sealed class ShippedFiles(string folder) : IFileProvider, IDisposable
{
    private readonly PhysicalFileProvider _files = new(folder);

    public IFileInfo GetFileInfo(string subpath) => _files.GetFileInfo(subpath);

    public IDirectoryContents GetDirectoryContents(string subpath) => _files.GetDirectoryContents(subpath);

    public IChangeToken Watch(string filter) => NullChangeToken.Singleton;

    public void Dispose() => _files.Dispose();
}
