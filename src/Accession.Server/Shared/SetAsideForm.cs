namespace Accession.Server.Shared;

/// <summary>What is asked of whoever sets a paper or a permit aside: where to, what, and why.</summary>
/// <param name="Action">Where the form goes.</param>
/// <param name="Field">What the key is called there.</param>
/// <param name="Id">The key.</param>
public sealed record SetAsideForm(string Action, string Field, long Id);
