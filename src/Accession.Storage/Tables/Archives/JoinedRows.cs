using System.Text;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// The rows of a table by the key that joins them to others, kept in a file of the moment: in memory is only where
/// each begins. Rows of one key come in the order in which they were added.
/// </summary>
internal sealed class JoinedRows : IDisposable
{
    private readonly List<(ulong Key, long At)> _places = [];
    private readonly FileStream _file;
    private readonly BinaryWriter _writer;
    private readonly BinaryReader _reader;
    private bool _isSorted;

    public JoinedRows()
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
            BufferSize = 1 << 14,
            Options = FileOptions.DeleteOnClose,
        };
        if (!OperatingSystem.IsWindows())
        {
            // Where a plant grew may stand in it.
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        _file = new(Path.Combine(Path.GetTempPath(), $"accession-{Guid.NewGuid():N}"), options);
        _writer = new(_file, Encoding.UTF8, leaveOpen: true);
        _reader = new(_file, Encoding.UTF8, leaveOpen: true);
    }

    public void Add(string key, IReadOnlyList<string> cells)
    {
        _places.Add((HashOf(key), _file.Position));
        _writer.Write(key);
        _writer.Write7BitEncodedInt(cells.Count);
        foreach (var cell in cells)
        {
            _writer.Write(cell);
        }
    }

    /// <summary>The rows of a key. After the first question nothing is added.</summary>
    public IEnumerable<IReadOnlyList<string>> Of(string key)
    {
        if (!_isSorted)
        {
            _places.Sort();
            _isSorted = true;
        }

        var hash = HashOf(key);
        var at = _places.BinarySearch((hash, -1));
        for (at = at < 0 ? ~at : at; at < _places.Count && _places[at].Key == hash; at++)
        {
            _file.Position = _places[at].At;
            if (_reader.ReadString() == key)
            {
                var cells = new string[_reader.Read7BitEncodedInt()];
                for (var i = 0; i < cells.Length; i++)
                {
                    cells[i] = _reader.ReadString();
                }

                yield return cells;
            }
        }
    }

    public void Dispose()
    {
        _reader.Dispose();
        _writer.Dispose();
        _file.Dispose();
    }

    /// <summary>64 bits of a key by the method of Fowler, Noll and Vo; keys that share them are told apart.</summary>
    public static ulong HashOf(string key)
    {
        var hash = 14_695_981_039_346_656_037;
        foreach (var c in key)
        {
            hash = unchecked((hash ^ c) * 1_099_511_628_211);
        }

        return hash;
    }
}
