using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.Batches;

/// <summary>
/// What makes a row the same row when its list comes again: its content, whatever the line, the order of the columns
/// or the empty columns beside it. Spacing at the ends of a cell carries no meaning; everything else does.
/// </summary>
public sealed class RowIdentity
{
    private readonly (int Column, byte[] Heading)[] _columns;
    private readonly Dictionary<string, int> _seen = new(StringComparer.Ordinal);

    /// <summary>Prepares for a list.</summary>
    /// <param name="headings">The headings, in the order of the cells.</param>
    public RowIdentity(IReadOnlyList<string> headings)
    {
        _columns =
        [
            .. headings
                .Select((heading, column) => (Column: column, Folded: Folding.Fold(heading.Trim())))
                .OrderBy(pair => pair.Folded, StringComparer.Ordinal)
                .Select(pair => (pair.Column, Encoding.UTF8.GetBytes(pair.Folded))),
        ];
    }

    /// <summary>The identity of a row: 128 bits of SHA-256 over headings and cells, in hexadecimal.</summary>
    /// <param name="cells">The cells, in the order of the headings.</param>
    public string Of(IReadOnlyList<string> cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        // Together, because the hash takes longer to be called for each piece than for all of them.
        var content = new ArrayBufferWriter<byte>(1024);
        foreach (var (column, heading) in _columns)
        {
            var cell = column < cells.Count ? cells[column].AsSpan().Trim() : default;
            if (!cell.IsEmpty)
            {
                content.Write(heading);
                content.Write("\u001F"u8);
                Encoding.UTF8.GetBytes(cell, content);
                content.Write("\u001E"u8);
            }
        }

        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(content.WrittenSpan, hash);
        return Convert.ToHexStringLower(hash[..16]);
    }

    /// <summary>The place of a row among equal rows of its list, from 1; ask once for each row, in order.</summary>
    /// <param name="identity">The identity of the row.</param>
    public int NextOccurrence(string identity) => _seen[identity] = _seen.GetValueOrDefault(identity) + 1;
}
