using System.Globalization;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.WebUtilities;

namespace Accession.Server.Hosting;

/// <summary>
/// Says where a page of a list begins, as a text that only this server reads: for the same address and no other.
/// </summary>
internal sealed class Cursors(IDataProtectionProvider protection)
{
    public string Write(string list, params ReadOnlySpan<long> key) => WebEncoders.Base64UrlEncode(
        For(list).Protect(System.Text.Encoding.ASCII.GetBytes(string.Join(' ', key.ToArray()
            .Select(part => part.ToString(CultureInfo.InvariantCulture))))));

    /// <summary>The key behind which the page begins; null when the text is damaged or of another list.</summary>
    public long[]? Read(string list, string cursor)
    {
        try
        {
            var text = System.Text.Encoding.ASCII.GetString(For(list).Unprotect(WebEncoders.Base64UrlDecode(cursor)));
            return [.. text.Split(' ').Select(part => long.Parse(part, CultureInfo.InvariantCulture))];
        }
        catch (Exception damaged) when (damaged is CryptographicException or FormatException)
        {
            return null;
        }
    }

    private IDataProtector For(string list) => protection.CreateProtector("Accession.Cursor", list);
}
