namespace Accession.Core.Outcomes;

/// <summary>
/// How an operation was asked for: by whom, and under which key. The same person with the same key is the same
/// request sent again, and gets the same answer without anything happening twice.
/// </summary>
/// <param name="By">Who asks.</param>
/// <param name="RequestKey">The key of the request, at most 80 characters; null when it cannot be sent again.</param>
public sealed record Door(Actor By, string? RequestKey = null)
{
    /// <summary>The program asks itself.</summary>
    public static Door System { get; } = new(Actor.System);
}
