using System.Text;
using Accession.Core.Accessions;

namespace Accession.Core.Tests.Accessions;

/// <summary>
/// What a file is stands in its bytes. The beginnings are those of the formats' own descriptions: ISO 32000-1 7.5.2,
/// ITU-T T.81 B.1.1.3, RFC 2083 3.1, TIFF 6.0 section 2, the PE and ELF formats, APPNOTE 4.3.7.
/// </summary>
public sealed class PaperContentTests
{
    [Theory]
    [InlineData("255044462D312E370A25E2E3CFD30A", PaperType.Pdf)]
    [InlineData("FFD8FFE000104A46494600", PaperType.Jpeg)]
    [InlineData("89504E470D0A1A0A0000000D49484452", PaperType.Png)]
    [InlineData("49492A0008000000", PaperType.Tiff)]
    [InlineData("4D4D002A00000008", PaperType.Tiff)]
    public void Documents_and_pictures_are_known(string bytes, PaperType type)
    {
        Assert.Equal(type, Read(Convert.FromHexString(bytes)).Value);
    }

    [Theory]
    [InlineData("57 sheets, list enclosed.\r\nM\u00FCller\tand others\n")]
    [InlineData("\uFEFFWith a mark at its beginning")]
    [InlineData("PK is no archive, and MZ no program, where they begin a letter.")]
    [InlineData("Fewer than < 5 sheets, more than > 3")]
    public void Plain_text_is_known(string text) =>
        Assert.Equal(PaperType.Text, Read(Encoding.UTF8.GetBytes(text)).Value);

    [Theory]
    [InlineData("4D5A90000300000004000000", "a Windows program")]
    [InlineData("7F454C4602010100", "a Linux program")]
    [InlineData("504B030414000000", "a zip archive")]
    [InlineData("1F8B080000000000", "a packed archive")]
    [InlineData("D0CF11E0A1B11AE1", "an office document")]
    [InlineData("FFFE480065006C00", "another encoding")]
    [InlineData("00010203", "none of these")]
    [InlineData("48656C6C6FE4", "none of these")]
    public void What_is_no_paper_is_refused_with_what_it_looks_like(string bytes, string looksLike)
    {
        var refusal = Assert.Single(Read(Convert.FromHexString(bytes)).Refusals);
        Assert.Contains(looksLike, refusal.Reason, StringComparison.Ordinal);
        Assert.Contains("PDF, JPEG, PNG, TIFF or plain text", refusal.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("#!/bin/sh\nrm -r /\n", "a script")]
    [InlineData("@ECHO OFF\r\ndel *.*\r\n", "a script")]
    [InlineData("\uFEFF \n#!/usr/bin/env python\n", "a script")]
    [InlineData("{\\rtf1\\ansi text}", "a word processor")]
    [InlineData("<!DOCTYPE html><p>deed", "a web page")]
    [InlineData("Dear all,\n<SCRIPT>alert(1)</SCRIPT>", "a web page")]
    [InlineData("<?xml version=\"1.0\"?><svg/>", "a web page")]
    public void Text_that_could_be_run_is_refused(string text, string looksLike) => Assert.Contains(
        looksLike, Assert.Single(Read(Encoding.UTF8.GetBytes(text)).Refusals).Reason, StringComparison.Ordinal);

    [Fact]
    public void It_does_not_matter_in_what_pieces_the_bytes_come()
    {
        var web = Encoding.UTF8.GetBytes(new string('\u00E4', 5000) + "<scr" + "ipt>" + new string('x', 5000));
        var text = Encoding.UTF8.GetBytes(new string('\u00E4', 5000) + "\U0001F33F" + new string('x', 5000));
        foreach (var size in new[] { 1, 3, 7, 4096, 100_000 })
        {
            Assert.True(Read(web, size).IsRefused);
            Assert.Equal(PaperType.Text, Read(text, size).Value);
        }
    }

    [Fact]
    public void A_character_cut_off_at_the_end_is_no_text() =>
        Assert.True(Read(Encoding.UTF8.GetBytes("Gr\u00FC")[..3]).IsRefused);

    [Fact]
    public void An_empty_file_is_no_paper() =>
        Assert.Contains("empty", Assert.Single(Read([]).Refusals).Reason, StringComparison.Ordinal);

    private static Core.Outcomes.Outcome<PaperType> Read(byte[] bytes, int size = 1 << 16)
    {
        var content = new PaperContent();
        foreach (var piece in bytes.Chunk(size))
        {
            content.Add(piece);
        }

        Assert.Equal(bytes.Length, content.Bytes);
        return content.End();
    }
}
