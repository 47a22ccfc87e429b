using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

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
            // Lists are a curator's; what labels say may be typed by whoever works at the bench.
            pages.Conventions.AddFolderApplicationModelConvention("/Receiving", page => page.EndpointMetadata.Add(
                new AuthorizeAttribute(IsForKeying(page.ViewEnginePath) ? Access.Bench : Access.Curators)));
            pages.Conventions.AuthorizeFolder("/Arriving", Access.Bench);
            pages.Conventions.AuthorizeFolder("/Treating", Access.Bench);
            pages.Conventions.AuthorizePage("/Treating/WaiverPage", Access.Curators);
            pages.Conventions.AuthorizeFolder("/Filing", Access.Bench);
            // Series and numbers are for administrators too, who open a series after a restore.
            pages.Conventions.AuthorizeFolder("/Numbering", Access.Staff);
            pages.Conventions.AuthorizePage("/Numbering/Bench", Access.Bench);
            pages.Conventions.AuthorizePage("/Numbering/Piles", Access.Bench);
            pages.Conventions.AuthorizeFolder("/Tracking", Access.Readers);
            pages.Conventions.AuthorizePage("/Tracking/AccessionPage", Access.Staff);
            pages.Conventions.AuthorizePage("/Tracking/StepPage", Access.Staff);
            // Where several sheets bear one number, each has an address that says which it is.
            pages.Conventions.AddPageRoute("/Tracking/SpecimenPage", "/specimen/{catalogNumber}/sheet/{sheet:int}");
            pages.Conventions.AddPageRoute(
                "/Tracking/CorrectPage", "/specimen/{catalogNumber}/sheet/{sheet:int}/correct");
            pages.Conventions.AddPageRoute(
                "/Determining/NameSheet", "/specimen/{catalogNumber}/sheet/{sheet:int}/name");
            pages.Conventions.AuthorizeFolder("/Publishing", Access.Curators);
        })
        .AddMvcOptions(mvc =>
        {
            mvc.Filters.Add(new ResponseCacheAttribute { NoStore = true });
            mvc.Filters.Add(new NoSuchPost());
        });
        services.AddAntiforgery(antiforgery => antiforgery.Cookie.Name = "accession-form");
        services.AddHealthChecks().AddCheck<RegisterAnswers>("register");
        return services;
    }

    private static bool IsForKeying(string page) => page is "/Receiving/KeyPile" or "/Receiving/Keying";
}

/// <summary>A post that a page does not know is not found: its page was never loaded, and cannot be shown.</summary>
internal sealed class NoSuchPost : IPageFilter
{
    public void OnPageHandlerSelected(PageHandlerSelectedContext context)
    {
    }

    public void OnPageHandlerExecuting(PageHandlerExecutingContext context)
    {
        if (context.HandlerMethod is null && HttpMethods.IsPost(context.HttpContext.Request.Method))
        {
            context.Result = new NotFoundResult();
        }
    }

    public void OnPageHandlerExecuted(PageHandlerExecutedContext context)
    {
    }
}
