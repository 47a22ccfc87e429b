using System.Reflection;
using Microsoft.AspNetCore.Http.Metadata;

namespace Accession.Server.Hosting;

/// <summary>The answer of a JSON door that did nothing, and says why.</summary>
internal sealed class Refused(Problem problem) : IResult, IEndpointMetadataProvider
{
    public Problem Problem => problem;

    public Task ExecuteAsync(HttpContext httpContext) => httpContext.WriteProblemAsync(problem);

    // Which statuses there are is the same for all doors of a kind, and said there.
    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
    }
}
