using System.Text;
using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>
/// Finds out what a paper's file is while its bytes pass by; the name of a file says nothing. Whatever is neither a
/// document, a picture nor plain text is refused with what it looks like. It holds the first bytes and no others.
/// </summary>
public sealed class PaperContent
{
    private const int Head = 1024;
    private const int LongestMark = 16;
    private const string Takes = "Papers are taken as PDF, JPEG, PNG, TIFF or plain text.";

    // Signatures of RFC 2083 (PNG), TIFF 6.0 and BigTIFF, ITU-T T.81 (JPEG), ISO 32000-1 7.5.2 (PDF).
    private static readonly (PaperType Type, byte[] Begins)[] Known =
    [
        (PaperType.Pdf, "%PDF-"u8.ToArray()),
        (PaperType.Jpeg, [0xFF, 0xD8, 0xFF]),
        (PaperType.Png, [0x89, .. "PNG\r\n"u8, 0x1A, 0x0A]),
        (PaperType.Tiff, [.. "II"u8, 42, 0]),
        (PaperType.Tiff, [.. "MM"u8, 0, 42]),
        (PaperType.Tiff, [.. "II"u8, 43, 0]),
        (PaperType.Tiff, [.. "MM"u8, 0, 43]),
    ];

    // The formats' own descriptions: PE, ELF, Mach-O, class files, ZIP, gzip, 7z, RAR, CFB, RTF.
    private static readonly (string LooksLike, byte[] Begins)[] Refused =
    [
        ("a Windows program", "MZ"u8.ToArray()),
        ("a Linux program", [0x7F, .. "ELF"u8]),
        ("a macOS program", [0xCF, 0xFA, 0xED, 0xFE]),
        ("a macOS program", [0xCA, 0xFE, 0xBA, 0xBE]),
        ("a zip archive or an office document", [.. "PK"u8, 3, 4]),
        ("a zip archive", [.. "PK"u8, 5, 6]),
        ("a packed archive", [0x1F, 0x8B]),
        ("a packed archive", [.. "7z"u8, 0xBC, 0xAF]),
        ("a packed archive", "Rar!"u8.ToArray()),
        ("an office document of the old kind", [0xD0, 0xCF, 0x11, 0xE0]),
        ("text in another encoding than UTF-8", [0xFF, 0xFE]),
        ("text in another encoding than UTF-8", [0xFE, 0xFF]),
    ];

    // Text by their bytes, and yet more than that.
    private static readonly (string LooksLike, string Begins)[] RefusedTexts =
    [
        ("a script", "#!"), ("a script", "@echo off"), ("a document of a word processor", "{\\rtf"),
    ];

    // In lower case; any of them makes a text something that a browser might run.
    private static readonly string[] WebMarks =
        ["<!doctype", "<html", "<head", "<body", "<script", "<iframe", "<svg", "<?php", "<?xml", "<object"];

    private readonly byte[] _head = new byte[Head];
    private readonly Decoder _decoder =
        new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true).GetDecoder();

    private int _held;
    private string _tail = "";
    private bool _isText = true;
    private bool _isWeb;

    /// <summary>How many bytes have passed.</summary>
    public long Bytes { get; private set; }

    /// <summary>Sees the next bytes of the file.</summary>
    /// <param name="bytes">Any number of them.</param>
    public void Add(ReadOnlySpan<byte> bytes)
    {
        Bytes += bytes.Length;
        var first = bytes[..Math.Min(bytes.Length, Head - _held)];
        first.CopyTo(_head.AsSpan(_held));
        _held += first.Length;
        if (_isText)
        {
            Look(bytes, isLast: false);
        }
    }

    /// <summary>What the whole file is, or what it looks like and why it is not taken.</summary>
    public Outcome<PaperType> End()
    {
        if (Bytes == 0)
        {
            return new Refusal(RefusalKind.Invalid, "The file is empty. Choose the paper and send it again.");
        }

        var head = _head.AsSpan(0, _held);
        foreach (var (type, begins) in Known)
        {
            if (head.StartsWith(begins))
            {
                return type;
            }
        }

        if (_isText)
        {
            Look([], isLast: true);
        }

        return _isText ? OfText(head) : Refuse(LooksLike(head));
    }

    private Outcome<PaperType> OfText(ReadOnlySpan<byte> head)
    {
        if (_isWeb)
        {
            return Refuse("a web page, or something that a browser could run");
        }

        var begins = Encoding.UTF8.GetString(head).TrimStart('\uFEFF', ' ', '\t', '\r', '\n');
        foreach (var (looksLike, mark) in RefusedTexts)
        {
            if (begins.StartsWith(mark, StringComparison.OrdinalIgnoreCase))
            {
                return Refuse(looksLike);
            }
        }

        return PaperType.Text;
    }

    private static string LooksLike(ReadOnlySpan<byte> head)
    {
        foreach (var (looksLike, begins) in Refused)
        {
            if (head.StartsWith(begins))
            {
                return looksLike;
            }
        }

        return "none of these, whatever its name says";
    }

    private static Refusal Refuse(string looksLike) => new(
        RefusalKind.Invalid, $"The file looks like {looksLike}. {Takes} Nothing was kept.");

    private void Look(ReadOnlySpan<byte> bytes, bool isLast)
    {
        const int Piece = 4096;
        Span<char> letters = stackalloc char[Piece + 4];
        try
        {
            do
            {
                var piece = bytes[..Math.Min(bytes.Length, Piece)];
                bytes = bytes[piece.Length..];
                var count = _decoder.GetChars(piece, letters, isLast && bytes.IsEmpty);
                LookAt(letters[..count]);
            }
            while (!bytes.IsEmpty && _isText);
        }
        catch (DecoderFallbackException)
        {
            _isText = false;
        }
    }

    private void LookAt(ReadOnlySpan<char> letters)
    {
        foreach (var letter in letters)
        {
            if (char.IsControl(letter) && letter is not ('\t' or '\n' or '\r' or '\f'))
            {
                _isText = false;
                return;
            }
        }

        var text = string.Concat(_tail, letters).ToLowerInvariant();
        _isWeb |= WebMarks.Any(mark => text.Contains(mark, StringComparison.Ordinal));
        _tail = text.Length <= LongestMark ? text : text[^LongestMark..];
    }
}
