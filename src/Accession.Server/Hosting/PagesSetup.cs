using Microsoft.AspNetCore.Mvc;

namespace Accession.Server.Hosting;

/// <summary>
/// Pages stand in the slices; each folder is open to those who do that work, and each page says its address.
/// </summary>
internal static class PagesSetup
{
    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorPages(pages =>
        {
            pages.RootDirectory = "/";
            pages.Conventions.AuthorizeFolder("/Receiving", Access.Curators);
            pages.Conventions.AuthorizeFolder("/Numbering", Access.Bench);
            pages.Conventions.AuthorizeFolder("/Tracking", Access.Staff);
            pages.Conventions.AuthorizeFolder("/Publishing", Access.Curators);
        })
        .AddMvcOptions(mvc => mvc.Filters.Add(new ResponseCacheAttribute { NoStore = true }));
        services.AddAntiforgery(antiforgery => antiforgery.Cookie.Name = "accession-form");
        services.AddHealthChecks().AddCheck<RegisterAnswers>("register");
        return services;
    }
}
