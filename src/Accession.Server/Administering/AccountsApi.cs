using System.Buffers.Binary;
using System.ComponentModel;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Accession.Server.Administering;

/// <summary>People with access. The one secret that comes out is a link that was made just now, told once.</summary>
internal static class AccountsApi
{
    public static void MapAccountsApi(this IEndpointRouteBuilder api)
    {
        var accounts = api.MapGroup("/accounts").WithTags("People with access").RequireRight(Right.KeepAccounts);
        accounts.MapGet("/", ListAsync).WithSummary("The people with access, closed accounts included");
        accounts.MapGet("/{id}", ShowAsync).WithSummary("A person with access");
        accounts.MapPost("/", InviteAsync).WithSummary("Let a person in: an account, and a link that opens it once")
            .WithMetadata(new BodyExample(
                """{"userName": "ada@herbarium.example", "displayName": "Ada Quill", "roles": ["technician"]}"""));
        accounts.MapPost("/{id}/links", LinkAsync)
            .WithSummary("Make a new link for somebody who lost the old one; earlier ones stop working");
        accounts.MapPost("/{id}/work-changes", ChangeAsync).WithMetadata(new AsksVersion())
            .WithSummary("Give an account just this work and these counties")
            .WithMetadata(new BodyExample("""{"roles": ["weedOfficer"], "counties": ["Harney, Oregon"]}"""));
        accounts.MapPost("/{id}/closings", CloseAsync).WithMetadata(new AsksVersion())
            .WithSummary("Close an account: it opens nothing");
        accounts.MapPost("/{id}/openings", OpenAsync).WithMetadata(new AsksVersion())
            .WithSummary("Open a closed account again, with the work it had");
    }

    /// <summary>Somebody to let in.</summary>
    internal sealed record Inviting(
        [property: Description("An e-mail address or user name.")] string? UserName,
        [property: Description("The name, as it stands in the trail.")] string? DisplayName,
        IReadOnlyList<Role>? Roles,
        [property: Description("Of a weed officer, each with its state, as Harney, Oregon.")]
        IReadOnlyList<string>? Counties);

    /// <summary>What an account is for from now on.</summary>
    internal sealed record WorkChanged(
        IReadOnlyList<Role>? Roles,
        [property: Description("Of a weed officer, each with its state, as Harney, Oregon.")]
        IReadOnlyList<string>? Counties);

    /// <summary>Whose account was changed.</summary>
    internal sealed record Named(string DisplayName);

    private static async Task<Results<Ok<Listed<ShownAccount>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var last = after is null ? null : IdOf(after);
        var people = db.Users.Where(user => last == null || user.Id.CompareTo(last) > 0)
            .OrderBy(user => user.Id).Take(paging.Take);
        return paging.Show(await ShownAccount.OfAsync(db, people, cancellation), person => KeyOf(person.Id));
    }

    private static async Task<Results<Tagged<ShownAccount>, Refused>> ShowAsync(
        string id, AccessionDb db, CancellationToken cancellation) =>
        await FindAsync(id, db, cancellation) is { } account
            ? new Tagged<ShownAccount>(account)
            : RefusalResults.NotThere();

    private static async Task<Results<Ok<CreateAccount.Invitation>, Refused>> InviteAsync(
        Inviting body, HttpContext context, CreateAccount create, CancellationToken cancellation)
    {
        var outcome = await create.RunAsync(
            new(body.UserName, body.DisplayName, body.Roles ?? [], Lines(body.Counties)),
            await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<CreateAccount.Invitation>, Refused>> LinkAsync(
        string id, HttpContext context, CreateAccount create, CancellationToken cancellation)
    {
        var outcome = await create.LinkAgainAsync(id, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Named>, Refused>> ChangeAsync(
        string id, WorkChanged body, HttpContext context, AccessionDb db, ChangeAccount change,
        CancellationToken cancellation) => WhyNotAsSeen(context, db, id) is { } unseen
        ? unseen
        : Answer(await change.RunAsync(
            new(id, body.Roles ?? [], Lines(body.Counties)), await context.JsonDoorAsync(), cancellation));

    private static async Task<Results<Ok<Named>, Refused>> CloseAsync(
        string id, HttpContext context, AccessionDb db, ChangeAccount change, CancellationToken cancellation) =>
        WhyNotAsSeen(context, db, id) is { } unseen
            ? unseen
            : Answer(await change.CloseAsync(id, await context.JsonDoorAsync(), cancellation));

    private static async Task<Results<Ok<Named>, Refused>> OpenAsync(
        string id, HttpContext context, AccessionDb db, ChangeAccount change, CancellationToken cancellation) =>
        WhyNotAsSeen(context, db, id) is { } unseen
            ? unseen
            : Answer(await change.OpenAsync(id, await context.JsonDoorAsync(), cancellation));

    private static Results<Ok<Named>, Refused> Answer(Outcome<string> outcome) => outcome.IsRefused
        ? outcome.Refusals.ToProblem()
        : TypedResults.Ok(new Named(outcome.Value));

    private static Refused? WhyNotAsSeen(HttpContext context, AccessionDb db, string id) => context.WhyNotAsSeen(
        db, db.Users.Held().Where(user => user.Id == id), cancellation => FindAsync(id, db, cancellation));

    private static async Task<ShownAccount?> FindAsync(string id, AccessionDb db, CancellationToken cancellation) =>
        (await ShownAccount.OfAsync(db, db.Users.Where(user => user.Id == id), cancellation)).SingleOrDefault();

    private static string? Lines(IReadOnlyList<string>? counties) =>
        counties is null ? null : string.Join('\n', counties);

    // The id of an account is a GUID, which a cursor bears as two numbers.
    private static long[] KeyOf(string id)
    {
        var bytes = Guid.Parse(id).ToByteArray(bigEndian: true);
        return [BinaryPrimitives.ReadInt64BigEndian(bytes), BinaryPrimitives.ReadInt64BigEndian(bytes.AsSpan(8))];
    }

    private static string IdOf(long[] key)
    {
        var bytes = new byte[16];
        BinaryPrimitives.WriteInt64BigEndian(bytes, key[0]);
        BinaryPrimitives.WriteInt64BigEndian(bytes.AsSpan(8), key[1]);
        return new Guid(bytes, bigEndian: true).ToString();
    }
}
