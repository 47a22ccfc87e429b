using System.Text.Json.Serialization;

namespace Accession.Server.Hosting;

/// <summary>Why a request at a JSON door was not carried out, as RFC 9457 writes it.</summary>
/// <param name="Type">What kind it is: the status says it, so <c>about:blank</c>.</param>
/// <param name="Title">The name of the status.</param>
/// <param name="Status">The status code.</param>
/// <param name="Detail">What happened and what to do, in a sentence for a curator.</param>
/// <param name="Errors">Every reason, where a rule said no or something could not be read.</param>
/// <param name="Reference">What to read out to an administrator; the log has the same.</param>
internal sealed record Problem(
    string Type,
    string Title,
    int Status,
    string Detail,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] IReadOnlyList<Problem.Error>? Errors = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Reference = null)
{
    public const string MediaType = "application/problem+json";

    /// <summary>One reason.</summary>
    /// <param name="Detail">The sentence.</param>
    /// <param name="Pointer">The field that is meant, as a JSON pointer into what was sent.</param>
    public sealed record Error(
        string Detail,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Pointer = null);

    public static Problem Of(int status, string? detail = null, IReadOnlyList<Error>? errors = null) => new(
        "about:blank", Microsoft.AspNetCore.WebUtilities.ReasonPhrases.GetReasonPhrase(status), status,
        detail ?? Usual(status), errors);

    // What the framework says with a number alone.
    private static string Usual(int status) => status switch
    {
        400 => "The request cannot be read. Nothing was done; see how it is to be written under /api.",
        401 => "Send a token that is in force: Authorization: Bearer, a space, and the token.",
        403 => "The token has not the right that this needs. Nothing was done.",
        404 => "Nothing stands at this address, or it is not yours to see.",
        405 => "The address is there, but not with this method. See the addresses under /api.",
        413 => "What was sent is too large. Nothing of it was kept.",
        415 => "Send the body as application/json, in UTF-8.",
        429 => "Too many tokens that open nothing came from this address. Wait a minute, then try again.",
        >= 500 => "Something went wrong on our side. Nothing half done was kept. Send it again under the same "
            + "Idempotency-Key; if it happens again, tell an administrator the reference.",
        _ => "The request was not carried out.",
    };
}
