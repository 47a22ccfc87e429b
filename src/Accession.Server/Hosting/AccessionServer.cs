using Accession.Server.Administering;
using Accession.Server.Arriving;
using Accession.Server.Background;
using Accession.Server.Determining;
using Accession.Server.Filing;
using Accession.Server.Mail;
using Accession.Server.Mounting;
using Accession.Server.Numbering;
using Accession.Server.Publishing;
using Accession.Server.Receiving;
using Accession.Server.Tracking;
using Accession.Server.Treating;

namespace Accession.Server.Hosting;

/// <summary>Puts the server together; every door goes through here.</summary>
public static class AccessionServer
{
    /// <summary>Builds the server for pages.</summary>
    public static WebApplication Build(Settings settings)
    {
        var shipped = Path.Combine(AppContext.BaseDirectory, "wwwroot");
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            // The usual settings files, which ours replace just below, need not be watched.
            Args = ["--hostBuilder:reloadConfigOnChange=false"],
            ApplicationName = typeof(AccessionServer).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
            WebRootPath = shipped,
        });
        builder.Environment.WebRootFileProvider = new ShippedFiles(shipped);
        settings.ApplyTo(builder.Configuration);
        Limits.Apply(builder);

        builder.Services
            .AddStore()
            .AddAccess()
            .AddApi()
            .AddPages()
            .AddBackground()
            .AddMail()
            .AddReceiving()
            .AddArriving()
            .AddTreating()
            .AddNumbering()
            .AddTracking()
            .AddMounting()
            .AddDetermining()
            .AddFiling()
            .AddPublishing()
            .AddAdministering();

        var app = builder.Build();
        app.UseTrustedProxy();
        app.UseErrorPages();
        app.UseSecurityHeaders();
        app.UseStaticFiles();
        app.UseRouting();
        app.UseOneConnection();
        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseAuthorization();
        app.UseRequestKeys();
        app.MapHealth();
        app.MapReceiving();
        app.MapRazorPages();
        app.MapMounting();
        app.MapPublishing();
        app.MapApi();
        return app;
    }

    // The same operations for programs, by slice.
    private static void MapApi(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup($"{TokenAccess.Prefix}/v1");
        api.MapReceivingApi();
        api.MapRowsApi();
        api.MapSettlingApi();
        api.MapPapersApi();
        api.MapKeyingApi();
        api.MapNumberingApi();
        api.MapSeriesApi();
        api.MapParcelsApi();
        api.MapLoadsApi();
        api.MapBenchApi();
        api.MapFilingApi();
        api.MapDeterminingApi();
        api.MapTrackingApi();
        api.MapCorrectionsApi();
        api.MapPublishingApi();
        api.MapBackgroundApi();
        api.MapMailApi();
        api.MapAccountsApi();
        app.MapApiDocument();
    }

    /// <summary>Builds what a command needs: the store and the operations, without pages or background work.</summary>
    public static IHost BuildForCommand(Settings settings)
    {
        var builder = Host.CreateApplicationBuilder(new HostApplicationBuilderSettings
        {
            ContentRootPath = AppContext.BaseDirectory,
        });
        settings.ApplyTo(builder.Configuration);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.Logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.AddStore().AddWorkKinds().AddMail().AddReceiving().AddArriving()
            .AddTreating().AddNumbering().AddMounting().AddDetermining().AddFiling().AddTracking()
            .AddPublishing().AddAdministering();
        return builder.Build();
    }

    /// <summary>
    /// Builds what a command needs that knows accounts: all of the server, which is never started.
    /// </summary>
    public static WebApplication BuildWithAccounts(Settings settings) => Build(settings with
    {
        Set = [.. settings.Set, "Logging:Console:LogToStandardErrorThreshold=Trace"],
    });
}
