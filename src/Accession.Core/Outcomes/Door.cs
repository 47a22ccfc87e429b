namespace Accession.Core.Outcomes;

/// <summary>
/// How an operation was asked for: by whom, and under which key. The same person with the same key is the same
/// request sent again, and gets the same answer without anything happening twice.
/// </summary>
/// <param name="By">Who asks.</param>
/// <param name="RequestKey">The key of the request, at most 80 characters; null when it cannot be sent again.</param>
/// <param name="RequestDigest">
/// The SHA-256 of the whole request in hexadecimal, by which another request under the same key is noticed; null where
/// the key is made for one request and cannot be used for another.
/// </param>
public sealed record Door(Actor By, string? RequestKey = null, string? RequestDigest = null)
{
    /// <summary>The program asks itself.</summary>
    public static Door System { get; } = new(Actor.System);
}
