namespace Accession.Core.Standards.Eml;

/// <summary>An organisation, or a person of one, that made a data set or answers for it.</summary>
/// <param name="Organisation">The name of the organisation; never blank.</param>
/// <param name="MailAddress">An address that is read, such as the curator's office; null when there is none.</param>
/// <param name="GivenName">The given names of the person; null when only the organisation is meant.</param>
/// <param name="Surname">
/// The surname of the person; null when only the organisation is meant. A given name without it is not written.
/// </param>
/// <param name="Position">What the person is there, such as <c>Curator</c>; null when not said.</param>
public sealed record DatasetParty(
    string Organisation,
    string? MailAddress = null,
    string? GivenName = null,
    string? Surname = null,
    string? Position = null);
