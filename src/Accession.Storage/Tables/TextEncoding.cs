using System.Buffers;
using System.Text;
using System.Text.Unicode;

namespace Accession.Storage.Tables;

/// <summary>How the letters of a text file are written. The sender is told, because it is a guess.</summary>
/// <param name="Encoding">The encoding to read with.</param>
/// <param name="Name">Its name and why it was taken, for people.</param>
internal sealed record TextEncoding(Encoding Encoding, string Name)
{
    /// <summary>Whether the bytes themselves show it; only Windows-1252 is a guess that fits everything.</summary>
    public bool IsCertain { get; init; } = true;

    /// <summary>Whether every letter is one of ASCII's, so that most encodings would read the same.</summary>
    public bool IsPlain { get; init; }

    private const int BufferSize = 1 << 16;

    /// <summary>
    /// A byte order mark, else the zeros of UTF-16, else UTF-8 without a single fault, else Windows-1252, which
    /// can read anything. The whole file is looked at: the first accent may stand in its last line.
    /// </summary>
    /// <param name="open">Opens the file at its beginning.</param>
    public static TextEncoding Of(Func<Stream> open)
    {
        using var file = open();
        var block = new byte[BufferSize];
        ReadOnlySpan<byte> head = block.AsSpan(0, file.ReadAtLeast(block, block.Length, throwOnEndOfStream: false));
        if (head is [0xEF, 0xBB, 0xBF, ..])
        {
            return new(Encoding.UTF8, "UTF-8 (marked)");
        }

        if (head is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            return head[0] == 0xFF
                ? new(Encoding.Unicode, "UTF-16, little-endian (marked)")
                : new(Encoding.BigEndianUnicode, "UTF-16, big-endian (marked)");
        }

        if (LooksLikeUtf16(head) is { } utf16)
        {
            return utf16;
        }

        using var again = open();
        var (line, isPlain) = FirstLineNotUtf8(again);
        return line is not null
            ? new(
                CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
                $"Windows-1252 (line {line} is not UTF-8)")
            {
                IsCertain = false,
            }
            : new(Encoding.UTF8, "UTF-8") { IsPlain = isPlain };
    }

    /// <summary>Western text in UTF-16 has a zero in every other byte, always on the same side.</summary>
    public static TextEncoding? LooksLikeUtf16(ReadOnlySpan<byte> head)
    {
        int even = 0, odd = 0;
        for (var i = 0; i + 1 < head.Length; i += 2)
        {
            even += head[i] == 0 ? 1 : 0;
            odd += head[i + 1] == 0 ? 1 : 0;
        }

        var pairs = head.Length / 2;
        return pairs < 4 ? null
            : odd > pairs / 2 && even <= pairs / 50 ? new(Encoding.Unicode, "UTF-16, little-endian (not marked)")
            : even > pairs / 2 && odd <= pairs / 50 ? new(Encoding.BigEndianUnicode, "UTF-16, big-endian (not marked)")
            : null;
    }

    private static (int? Line, bool IsPlain) FirstLineNotUtf8(Stream file)
    {
        var isPlain = true;
        var bytes = ArrayPool<byte>.Shared.Rent(BufferSize);
        var chars = ArrayPool<char>.Shared.Rent(BufferSize);
        try
        {
            int kept = 0, line = 1;
            while (true)
            {
                var got = file.ReadAtLeast(bytes.AsSpan(kept, BufferSize - kept), 1, throwOnEndOfStream: false);
                var filled = bytes.AsSpan(0, kept + got);
                var status = Utf8.ToUtf16(filled, chars, out var read, out _, replaceInvalidSequences: false, got == 0);
                line += filled[..read].Count((byte)'\n');
                isPlain = isPlain && Ascii.IsValid(filled);
                if (status == OperationStatus.InvalidData)
                {
                    return (line, false);
                }

                if (got == 0)
                {
                    return (null, isPlain);
                }

                filled[read..].CopyTo(bytes);   // a character cut in two by the end of the block
                kept = filled.Length - read;
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(bytes);
            ArrayPool<char>.Shared.Return(chars);
        }
    }
}
