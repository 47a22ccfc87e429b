using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Mail;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Administering;

/// <summary>
/// Whether mail goes out, and what waits. Administrators see which letters those are, not to whom they go nor what
/// they say.
/// </summary>
[Authorize(Access.Administrators)]
public sealed class MailPageModel(
    AccessionDb db, HoldMail hold, IOptions<MailOptions> mail, InstitutionClock clock) : PageModel
{
    private const int Most = 100;

    /// <summary>A letter that waits.</summary>
    public sealed record WaitingLetter(
        DateTime At, string By, string Subject, long? Batch, int? Line, string? Trouble, DateTime? TryAgainAt,
        string? GivenUp);

    public HoldMail.Held? Held { get; private set; }

    public int Count { get; private set; }

    public IReadOnlyList<WaitingLetter> Waiting { get; private set; } = [];

    public string? Why { get; private set; }

    /// <summary>Where letters go, in words.</summary>
    public string Where => mail.Value.Kind == MailKind.Smtp
        ? $"Letters go to the mail server {mail.Value.Host}."
        : "Letters become files in the folder mail/out of the data folder. Nothing leaves this machine by itself.";

    public async Task OnGetAsync(CancellationToken cancellation) => await LoadAsync(cancellation);

    public async Task<IActionResult> OnPostHoldAsync(string? why, CancellationToken cancellation)
    {
        Why = why;
        return await AnswerAsync(
            await hold.HoldMailAsync(why, HttpContext.Door(), cancellation), "The mail is held.", cancellation);
    }

    public async Task<IActionResult> OnPostReleaseAsync(CancellationToken cancellation) => await AnswerAsync(
        await hold.ReleaseMailAsync(HttpContext.Door(), cancellation), "The mail goes out.", cancellation);

    /// <summary>What keeps a letter, in words.</summary>
    public string WhatKeeps(WaitingLetter letter) => letter switch
    {
        { GivenUp: { } given } => given,
        _ when Held is not null => "All mail is held.",
        { Trouble: { } trouble, TryAgainAt: { } again } => $"{trouble} It is tried again after {clock.Show(again)}.",
        _ => "It is on its way.",
    };

    private async Task<IActionResult> AnswerAsync(
        Outcome<int> outcome, string said, CancellationToken cancellation)
    {
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = outcome.Value switch
        {
            0 => $"{said} No letter waits.",
            1 => $"{said} 1 letter waits.",
            var letters => $"{said} {letters:N0} letters wait.",
        };
        return Redirect("/mail");
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Held = await hold.CurrentAsync(cancellation);
        var waiting = db.Letters.Where(letter => letter.SentAt == null && letter.RefusedAt == null);
        Count = await waiting.CountAsync(cancellation);
        Waiting = await waiting.OrderBy(letter => letter.Id).Take(Most)
            .Select(letter => new WaitingLetter(
                letter.Act.At, letter.Act.ActorName, letter.Subject,
                db.Rows.Where(row => row.Id == letter.RowId).Select(row => (long?)row.BatchId).FirstOrDefault(),
                db.Rows.Where(row => row.Id == letter.RowId).Select(row => (int?)row.Line).FirstOrDefault(),
                letter.Trouble, letter.TryAgainAt,
                db.Work.Where(work => work.Kind == SendLetterWork.Kind && work.Subject == letter.Id)
                    .Select(work => work.Failure).FirstOrDefault()))
            .ToListAsync(cancellation);
    }
}
