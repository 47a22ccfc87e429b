using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Letters;

/// <summary>
/// A letter by mail. It is written in the act that wants it and sent afterwards, once: its message identifier is fixed
/// when it is written, so that a copy which a power cut lets out twice is known to be the same. What was written is
/// never changed; beside it stands what became of it.
/// </summary>
public sealed class Letter
{
    /// <summary>The longest subject, in characters.</summary>
    public const int LongestSubject = 200;

    /// <summary>The longest text, in characters.</summary>
    public const int LongestText = 20_000;

    /// <summary>The longest words of a mail server that are kept, in characters.</summary>
    public const int LongestWords = 500;

    /// <summary>
    /// How long a letter is tried: five days after the first try it has failed (RFC 5321, section 4.5.4.1, asks for
    /// four or five days at least).
    /// </summary>
    public static readonly TimeSpan TriedFor = TimeSpan.FromDays(5);

    /// <summary>The longest pause between two tries.</summary>
    public static readonly TimeSpan LongestPause = TimeSpan.FromHours(4);

    private Letter()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The act that wanted it: who wrote it and when.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that wanted it: who wrote it and when.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>To whom: a mail address. It is personal, and for curators only.</summary>
    public string To { get; private set; } = "";

    /// <summary>What stands above it.</summary>
    public string Subject { get; private set; } = "";

    /// <summary>The letter in plain text.</summary>
    public string Text { get; private set; } = "";

    /// <summary>The message identifier without its angle brackets, the same in every try.</summary>
    public string MessageId { get; private set; } = "";

    /// <summary>The row that it asks about; null when it is about none.</summary>
    public long? RowId { get; private set; }

    /// <summary>The decision it went out with; null when there was none.</summary>
    public long? DecisionId { get; private set; }

    /// <summary>Which letter about that row it is, from 1; two at once cannot both be the same.</summary>
    public int Ordinal { get; private set; }

    /// <summary>When a mail server took it, or its file was written; null while it waits.</summary>
    public DateTime? SentAt { get; private set; }

    /// <summary>When it was refused for good; null when it was not.</summary>
    public DateTime? RefusedAt { get; private set; }

    /// <summary>
    /// Why it will not be sent, in the mail server's words where it said any; null when it was not refused.
    /// </summary>
    public string? RefusedBecause { get; private set; }

    /// <summary>How often it could not be sent.</summary>
    public int Tries { get; private set; }

    /// <summary>When it first could not be sent; null when that never was.</summary>
    public DateTime? FirstTriedAt { get; private set; }

    /// <summary>Why it could not be sent the last time; null when that never was.</summary>
    public string? Trouble { get; private set; }

    /// <summary>When it is tried again; null before the first try, and after the last.</summary>
    public DateTime? TryAgainAt { get; private set; }

    /// <summary>Renewed by every verb.</summary>
    public Guid Version { get; private set; }

    /// <summary>Whether it is still to be sent.</summary>
    public bool Waits => SentAt is null && RefusedAt is null;

    /// <summary>Writes a letter, or says what is wrong with it.</summary>
    /// <param name="draft">To whom, what, and what about.</param>
    /// <param name="messageId">Its identifier among all letters of the world, without angle brackets.</param>
    /// <param name="act">The act that wants it.</param>
    public static Outcome<Letter> Write(LetterDraft draft, string messageId, Act act)
    {
        var to = LetterAddress.Read(draft.To);
        var subject = OneLine(draft.Subject ?? "");
        var text = (draft.Text ?? "").ReplaceLineEndings("\n").Trim('\n').TrimEnd();
        List<Refusal> wrong = [.. to.Refusals];
        if (subject.Length is 0 or > LongestSubject)
        {
            wrong.Add(new(RefusalKind.Invalid, string.Create(
                CultureInfo.InvariantCulture, $"Write a subject of 1 to {LongestSubject} characters.")));
        }

        if (text.Length is 0 or > LongestText)
        {
            wrong.Add(new(RefusalKind.Invalid, string.Create(
                CultureInfo.InvariantCulture, $"Write a letter of 1 to {LongestText:N0} characters.")));
        }

        return wrong.Count > 0
            ? wrong
            : new Letter
            {
                Act = act,
                To = to.Value,
                Subject = subject,
                Text = text,
                MessageId = messageId,
                RowId = draft.RowId,
                DecisionId = draft.DecisionId,
                Ordinal = draft.Ordinal,
                Version = Guid.NewGuid(),
            };
    }

    /// <summary>How long to wait after a failed try: each pause is twice the one before, up to the longest.</summary>
    /// <param name="tries">How many tries failed, at least 1.</param>
    /// <param name="first">The pause after the first.</param>
    public static TimeSpan PauseAfter(int tries, TimeSpan first)
    {
        var pause = first * Math.Pow(2, Math.Min(tries - 1, 20));
        return pause < LongestPause ? pause : LongestPause;
    }

    /// <summary>It went out.</summary>
    /// <param name="at">When, in UTC.</param>
    public void Sent(DateTime at)
    {
        (SentAt, TryAgainAt) = (at, null);
        Version = Guid.NewGuid();
    }

    /// <summary>It will not be sent: the address or the letter was refused for good.</summary>
    /// <param name="words">Why, as the mail server said it.</param>
    /// <param name="at">When, in UTC.</param>
    public void Refused(string words, DateTime at)
    {
        (RefusedAt, RefusedBecause, TryAgainAt) = (at, Kept(words), null);
        Version = Guid.NewGuid();
    }

    /// <summary>It could not be sent now, and is tried again after a pause; at last it is refused.</summary>
    /// <param name="why">What was in the way, as a sentence.</param>
    /// <param name="at">When, in UTC.</param>
    /// <param name="firstPause">The pause after the first failed try.</param>
    public void CouldNotBeSent(string why, DateTime at, TimeSpan firstPause)
    {
        Tries++;
        FirstTriedAt ??= at;
        Trouble = Kept(why);
        if (at - FirstTriedAt >= TriedFor)
        {
            Refused($"It was tried for {TriedFor.TotalDays:0} days. {Trouble}", at);
            return;
        }

        TryAgainAt = at + PauseAfter(Tries, firstPause);
        Version = Guid.NewGuid();
    }

    // Where a server repeats the address, the address stands beside the letter already, and nowhere else.
    private string Kept(string words)
    {
        var kept = OneLine(words.Replace(To, "that address", StringComparison.OrdinalIgnoreCase));
        return kept.Length > LongestWords ? kept[..LongestWords] : kept;
    }

    private static string OneLine(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
