using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Settles what a row was found to be: its sheets stay as duplicates, leave, wait for an answer of the collector, or
/// are of another gathering after all, which is never asked again.
/// </summary>
public sealed class SettleFinding(
    AccessionDb db, FindDuplicates find, AskCollector ask, TimeProvider clock)
{
    /// <param name="SeenMember">
    /// The member of the finding that the curator looked at, 0 where there was none to look at; another one now means
    /// that the finding changed meanwhile.
    /// </param>
    /// <param name="Question">
    /// The letter that asks the collector; null where nobody is asked, or in another way.
    /// </param>
    public sealed record Request(
        long BatchId, long RowId, RowDecision Decision, long SeenMember, string? Reason,
        AskCollector.Question? Question = null);

    public sealed record Settled(int Line, RowDecision Decision);

    public Task<Outcome<Settled>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "settle a finding", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync(door, act, () => SettleAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Settled>> SettleAsync(Request request, Act act, CancellationToken cancellation)
    {
        if (!Enum.IsDefined(request.Decision))
        {
            return new Refusal(RefusalKind.Invalid, "Choose what becomes of the sheets.");
        }

        var held = await RowInHand.HoldAsync(db, request.BatchId, request.RowId, cancellation);
        if (held.IsRefused)
        {
            return held.Refusals.ToList();
        }

        var row = held.Value;
        var members = await db.FoundMembers.AsNoTracking().Where(member => member.RowId == row.Id)
            .OrderBy(member => member.Id).ToListAsync(cancellation);
        if (row.Finding is null or FindingKind.New || row.Decision is not (null or RowDecision.Ask)
            || members.FirstOrDefault()?.Id is var first && first != Seen())
        {
            return new Refusal(RefusalKind.Conflict,
                $"The finding of line {row.Line} changed in the meantime. Nothing was decided; look at it again.");
        }

        if (members.Count == 0 && (request.Decision == RowDecision.Keep || request.Decision.Leaves()))
        {
            return new Refusal(RefusalKind.Invalid,
                $"Line {row.Line} was not compared singly, so nothing says which gathering its sheets are of. Look for "
                + "it in the register, or say that it is another gathering.");
        }

        if (request.Decision == RowDecision.Ask
            && await ask.WhyNotAgainAsync(row, request.Question, cancellation) is { } asked)
        {
            return asked;
        }

        return request.Decision == RowDecision.Different && members.Count > 0
            ? await TellApartAsync(row, members, act, cancellation)
            : await DecideAsync(row, members, request, act, cancellation);

        long? Seen() => request.SeenMember == 0 ? null : request.SeenMember;
    }

    private async Task<Outcome<Settled>> DecideAsync(
        BatchRow row, List<FoundMember> members, Request request, Act act, CancellationToken cancellation)
    {
        var with = members.Count > 0 ? new FoundWith(members[0].GatheringId, members[0].OtherRowId) : default;
        var entry = row.Decide(request.Decision, with, act);
        if (entry.IsRefused)
        {
            return entry.Refusals.ToList();
        }

        db.Add(entry.Value);
        await db.SaveChangesAsync(cancellation);
        if (request is { Decision: RowDecision.Ask, Question: { } question }
            && await ask.WriteAsync(row, entry.Value, question, act, cancellation) is { Count: > 0 } wrong)
        {
            return wrong.ToList();
        }

        return new Settled(row.Line, request.Decision);
    }

    // What is left may be something less close, or nothing: then the row is new.
    private async Task<Outcome<Settled>> TellApartAsync(
        BatchRow row, List<FoundMember> members, Act act, CancellationToken cancellation)
    {
        db.AddRange(members.Select(member => ToldApart.Of(row.Id, new(member.GatheringId, member.OtherRowId), act)));
        // The collector's answer was waited for; this is what came of it.
        if (row.Decision is not null)
        {
            var entry = row.Reopen(act);
            if (entry.IsRefused)
            {
                return entry.Refusals.ToList();
            }

            db.Add(entry.Value);
        }

        await db.SaveChangesAsync(cancellation);
        var line = row.Line;
        await find.FindAsync(row.BatchId, new Lines(line, line), (_, _, _) => Task.CompletedTask, cancellation);
        return new Settled(line, RowDecision.Different);
    }
}
