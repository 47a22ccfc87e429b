using System.Net;
using Microsoft.AspNetCore.HttpOverrides;

namespace Accession.Server.Hosting;

/// <summary>
/// Believes what the proxy before the program says of its visitors: from where they come, and whether they speak HTTPS.
/// Nobody else is believed, or everybody could claim an address of their own at each try to sign in.
/// </summary>
internal static class TrustedProxy
{
    /// <summary>The setting that names the addresses of the proxy, between commas; left out without one.</summary>
    public const string Setting = "Server:Proxy";

    /// <exception cref="WrongSettingException">An address cannot be read.</exception>
    public static void UseTrustedProxy(this WebApplication app)
    {
        var named = (app.Configuration[Setting] ?? "")
            .Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (named is [])
        {
            return;
        }

        var options = new ForwardedHeadersOptions
        {
            ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto,
            ForwardLimit = named.Length,
        };
        options.KnownProxies.Clear();
        options.KnownIPNetworks.Clear();
        foreach (var address in named)
        {
            options.KnownProxies.Add(IPAddress.TryParse(address, out var proxy)
                ? proxy
                : throw new WrongSettingException(
                    $"{Setting} is \"{address}\"; write the address of the proxy as the program sees it, such as "
                    + "127.0.0.1."));
        }

        app.UseForwardedHeaders(options);
    }
}
