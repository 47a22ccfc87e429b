using System.Data.Common;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Hosting;

/// <summary>
/// Who only looks has one connection from the first statement to the last: a page asks several, and opening one for
/// each took as long as asking. A post opens and closes as it goes, so that nobody holds a connection while a body
/// comes in.
/// </summary>
internal static class OneConnection
{
    public static void UseOneConnection(this IApplicationBuilder app) => app.Use((context, next) =>
        (HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method))
            && context.GetEndpoint() is not null
            ? HoldAsync(context, next)
            : next(context));

    private static async Task HoldAsync(HttpContext context, RequestDelegate next)
    {
        var database = context.RequestServices.GetRequiredService<AccessionDb>().Database;
        try
        {
            await database.OpenConnectionAsync(context.RequestAborted);
        }
        catch (DbException)
        {
            // Whoever needs the register says that it is not there; not every answer needs it.
            await next(context);
            return;
        }

        try
        {
            await next(context);
        }
        finally
        {
            await database.CloseConnectionAsync();
        }
    }
}
