using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Ground;

/// <summary>Something that can be asked of the server: a method and an address, as its route is written.</summary>
/// <param name="Method">GET, POST and so on.</param>
/// <param name="Address">The route with its parameters, and the page's handler behind a question mark.</param>
/// <param name="NeedsToken">Whether a form without its token is refused.</param>
public sealed record Entrance(string Method, string Address, bool NeedsToken)
{
    /// <summary>The address with something in the place of each parameter.</summary>
    public string Example => string.Join('/', Address.Split('/').Select(part => part.StartsWith('{') ? $"1{part[(part.IndexOf('}') + 1)..]}" : part));
}

/// <summary>Every door of the running program, from the program itself.</summary>
internal static class Endpoints
{
    public static async Task<IReadOnlyList<Entrance>> OfAsync(TestServer server)
    {
        var pages = server.App.Services.GetRequiredService<PageLoader>();
        List<Entrance> doors = [];
        foreach (var endpoint in ((IEndpointRouteBuilder)server.App).DataSources
            .SelectMany(source => source.Endpoints).OfType<RouteEndpoint>())
        {
            var address = "/" + endpoint.RoutePattern.RawText!.TrimStart('/');
            doors.AddRange(endpoint.Metadata.GetMetadata<PageActionDescriptor>() is { } page
                ? OfPage(address, await pages.LoadAsync(page, endpoint.Metadata))
                : (endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? ["GET"])
                    .Select(method => new Entrance(method, address, NeedsToken: false)));
        }

        return [.. doors.Distinct().OrderBy(door => door.Address).ThenBy(door => door.Method)];
    }

    // A page shows itself on GET even when its model says nothing about it.
    private static IEnumerable<Entrance> OfPage(string address, CompiledPageActionDescriptor page)
    {
        var needsToken = page.EndpointMetadata?.OfType<IgnoreAntiforgeryTokenAttribute>().Any() != true
            && !page.ModelTypeInfo!.IsDefined(typeof(IgnoreAntiforgeryTokenAttribute), inherit: true);
        return page.HandlerMethods
            .Select(handler => new Entrance(
                handler.HttpMethod.ToUpperInvariant(),
                handler.Name is { Length: > 0 } name ? $"{address}?handler={name}" : address,
                needsToken))
            .Append(new Entrance("GET", address, needsToken));
    }
}
