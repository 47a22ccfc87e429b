using System.Text;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// How the letters of an archive's file are written. A descriptor may say so and be wrong, so the bytes are asked
/// first: what is UTF-8 or UTF-16 shows it.
/// </summary>
internal static class DeclaredEncoding
{
    // The encodings of a single byte and of East Asia come with the framework, but must be asked for.
    static DeclaredEncoding() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>Finds the encoding, and what a person should know about it; null when nothing.</summary>
    public static (TextEncoding Encoding, string? Note) Of(Func<Stream> open, string? declared)
    {
        var found = TextEncoding.Of(open);
        var named = Named(declared ?? "UTF-8");
        if (named is null)
        {
            return (found, $"meta.xml says that letters are written as \"{declared}\", which is not known: read as "
                + $"{found.Name}.");
        }

        if (found.IsCertain || found.Encoding.CodePage == named.CodePage)
        {
            return (found, found.IsPlain || found.Encoding.CodePage == named.CodePage
                ? null
                : $"meta.xml says that letters are written as {declared ?? "UTF-8"}; they are {found.Name}, and were "
                    + "read so.");
        }

        return named.CodePage == Encoding.UTF8.CodePage
            ? (found, $"{(declared is null ? "An archive's letters are UTF-8 where it says nothing" : "meta.xml says "
                + $"that letters are written as {declared}")}; they are not: read as {found.Name}. Look at the "
                + "accents.")
            : (new(named, named.WebName), null);
    }

    private static Encoding? Named(string name)
    {
        try
        {
            var encoding = Encoding.GetEncoding(name.Trim());
            // UTF-7 lets letters hide that nobody sees; the framework knows it no more.
            return encoding.CodePage == 65000 ? null : encoding;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}
