using Accession.Server.Receiving;
using Microsoft.AspNetCore.Http.Features;

namespace Accession.Server.Hosting;

/// <summary>How much may come through the door; what is larger is refused before it is read.</summary>
internal static class Limits
{
    private const int OrdinaryRequest = 4 * 1024 * 1024;

    public static void Apply(WebApplicationBuilder builder)
    {
        var receiving = builder.Configuration.GetSection("Receiving").Get<ReceivingOptions>() ?? new();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = receiving.MaximumFileBytes + OrdinaryRequest;
        });
        builder.Services.Configure<FormOptions>(form =>
        {
            form.MultipartBodyLengthLimit = receiving.MaximumFileBytes;
            form.ValueCountLimit = 8192;
        });
    }
}
