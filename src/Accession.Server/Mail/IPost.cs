using MimeKit;

namespace Accession.Server.Mail;

/// <summary>A way out of the house for a letter: a mail server, or a folder.</summary>
public interface IPost
{
    /// <summary>Hands a letter over, and tells what became of it; whatever goes wrong outside is an answer.</summary>
    Task<PostAnswer> SendAsync(MimeMessage letter, CancellationToken cancellation);
}

/// <summary>What became of a letter at the post.</summary>
/// <param name="Fate">Taken, refused for good, or not now.</param>
/// <param name="Words">Why not; empty when it was taken.</param>
public sealed record PostAnswer(LetterFate Fate, string Words)
{
    public static PostAnswer Taken { get; } = new(LetterFate.Taken, "");

    public static PostAnswer Refused(string words) => new(LetterFate.Refused, words);

    public static PostAnswer NotNow(string words) => new(LetterFate.NotNow, words);
}

/// <summary>What can become of a letter at the post.</summary>
public enum LetterFate
{
    /// <summary>It is out of our hands.</summary>
    Taken,

    /// <summary>This letter is not wanted there, now or later; others may be.</summary>
    Refused,

    /// <summary>It may be taken later.</summary>
    NotNow,
}
