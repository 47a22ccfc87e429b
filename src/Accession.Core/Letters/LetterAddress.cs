using System.Net.Mail;
using Accession.Core.Outcomes;

namespace Accession.Core.Letters;

/// <summary>The mail address of one person, as letters are sent to it.</summary>
public static class LetterAddress
{
    /// <summary>The longest address that mail servers carry, in characters (RFC 5321, section 4.5.3.1.3).</summary>
    public const int Longest = 254;

    /// <summary>Reads an address as somebody wrote it: one address, without a name beside it.</summary>
    /// <param name="text">The text; blanks around it do not count.</param>
    /// <returns>The address, or what to write instead.</returns>
    public static Outcome<string> Read(string? text)
    {
        var address = text?.Trim() ?? "";
        return address switch
        {
            "" => new Refusal(RefusalKind.Invalid, "Write the mail address that the letter goes to."),
            { Length: > Longest } => new Refusal(
                RefusalKind.Invalid, $"The mail address is longer than {Longest} characters."),
            _ when IsAddress(address) => address,
            _ => new Refusal(RefusalKind.Invalid, "That is not one mail address; write it as name@example.org."),
        };
    }

    /// <summary>Whether a text is one mail address and nothing beside it.</summary>
    /// <param name="text">The text.</param>
    public static bool IsAddress(string? text) =>
        text is { Length: > 0 and <= Longest }
        && !text.Any(c => char.IsWhiteSpace(c) || char.IsControl(c) || c is ',' or ';' or '<' or '>')
        && MailAddress.TryCreate(text, out var read) && read.Address == text;
}
