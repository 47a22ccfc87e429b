using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Refuses a form that is larger than a paper may be before it is read, or when that much of it was read: ahead of the
/// form's token, which would be looked for in all of it.
/// </summary>
internal sealed class LargestPaper(IOptions<ReceivingOptions> options) : IAsyncAuthorizationFilter
{
    private const int OtherFields = 1024 * 1024;
    private const int MostFields = 100;

    public async Task OnAuthorizationAsync(AuthorizationFilterContext context)
    {
        var http = context.HttpContext;
        if (!HttpMethods.IsPost(http.Request.Method) || !http.Request.HasFormContentType)
        {
            return;
        }

        var most = options.Value.MaximumPaperBytes + OtherFields;
        if (http.Request.ContentLength > most)
        {
            Refuse(context);
            return;
        }

        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } body)
        {
            body.MaxRequestBodySize = most;
        }

        // The limit of one file is left to whoever reads it, who can say more than "too large".
        http.Features.Set<IFormFeature>(new FormFeature(
            http.Request, new FormOptions { MultipartBodyLengthLimit = most, ValueCountLimit = MostFields }));
        try
        {
            await http.Request.ReadFormAsync(http.RequestAborted);
        }
        catch (BadHttpRequestException tooLarge) when (tooLarge.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            Refuse(context);
        }
        catch (InvalidDataException)
        {
            Refuse(context);
        }
    }

    private static void Refuse(AuthorizationFilterContext context)
    {
        // The page that says so must not look for a form in the body.
        var http = context.HttpContext;
        http.Request.Method = HttpMethods.Get;
        http.Request.ContentType = null;
        http.Response.Headers.Connection = "close";
        context.Result = new StatusCodeResult(StatusCodes.Status413PayloadTooLarge);
    }
}
