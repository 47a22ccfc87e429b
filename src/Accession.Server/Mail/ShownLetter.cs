using Accession.Core.Letters;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mail;

/// <summary>A letter as curators see it: what was written, and what became of it.</summary>
public sealed record ShownLetter(
    long Id, long? RowId, long? DecisionId, int Ordinal, string To, string Subject, string Text, DateTime At, string By,
    DateTime? SentAt, DateTime? RefusedAt, string? RefusedBecause, string? Trouble, DateTime? TryAgainAt)
{
    /// <summary>Whether it is still to be sent.</summary>
    public bool Waits => SentAt is null && RefusedAt is null;

    /// <summary>done, stop or waiting, as marks are called.</summary>
    public string Mark => SentAt is not null ? "done" : RefusedAt is not null ? "stop" : "waiting";

    /// <summary>The letters about rows, the first first.</summary>
    public static Task<List<ShownLetter>> AboutAsync(
        AccessionDb db, IReadOnlyCollection<long> rows, CancellationToken cancellation) =>
        db.Letters.Where(letter => letter.RowId != null && rows.Contains(letter.RowId.Value))
            .OrderBy(letter => letter.Id)
            .Select(letter => new ShownLetter(
                letter.Id, letter.RowId, letter.DecisionId, letter.Ordinal, letter.To, letter.Subject, letter.Text,
                letter.Act.At, letter.Act.ActorName, letter.SentAt, letter.RefusedAt, letter.RefusedBecause,
                letter.Trouble, letter.TryAgainAt))
            .ToListAsync(cancellation);

    /// <summary>What became of it, in words.</summary>
    /// <param name="show">How a time is shown.</param>
    /// <param name="isHeld">Whether all mail is held.</param>
    public string Fate(Func<DateTime, string> show, bool isHeld) => this switch
    {
        { SentAt: { } sent } => $"sent {show(sent)}",
        { RefusedBecause: { } because } => $"not sent. {because}",
        _ when isHeld => "waits: an administrator holds all mail",
        { Trouble: { } trouble, TryAgainAt: { } again } => $"waits. {trouble} It is tried again after {show(again)}.",
        _ => "is on its way",
    };
}
