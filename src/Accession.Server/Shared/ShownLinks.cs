namespace Accession.Server.Shared;

/// <summary>The private links of a parcel or a batch, on the page where they are made.</summary>
/// <param name="Address">The address of that page.</param>
/// <param name="Open">Those that open.</param>
/// <param name="Made">The one that was made just now; null otherwise.</param>
public sealed record ShownLinks(string Address, IReadOnlyList<PrivateLinks.Open> Open, string? Made)
{
    /// <summary>The whole address of a link, as it goes into a receipt.</summary>
    public static string AddressOf(HttpRequest request, string token) =>
        $"{request.Scheme}://{request.Host}{request.PathBase}/to/{token}";
}
