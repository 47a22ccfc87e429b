using System.Diagnostics;
using Accession.Server.Receiving;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

[AllowAnonymous, IgnoreAntiforgeryToken]
public sealed class ErrorModel(IOptions<ReceivingOptions> receiving) : PageModel
{
    public string Heading { get; private set; } = "";

    public string WhatToDo { get; private set; } = "";

    public string? Reference { get; private set; }

    public void OnGet(int? status) => Say(status ?? Response.StatusCode);

    public void OnPost(int? status) => Say(status ?? Response.StatusCode);

    private void Say(int status)
    {
        (Heading, WhatToDo) = status switch
        {
            404 => ("There is no such page",
                "Nothing stands at this address, or it is not yours to see. Check the number, or go back."),
            400 => ("The form was too old or incomplete",
                "Nothing was saved. Go back, reload the page and send it again."),
            403 => ("This is not yours to do", "Ask a curator or an administrator."),
            413 => ("The file is too large",
                $"Files up to {receiving.Value.MaximumFileMegabytes} MB are taken as lists, and up to "
                + $"{receiving.Value.MaximumPaperMegabytes} MB as papers. Nothing of it was kept. Split the list or "
                + "make the paper smaller, or ask an administrator to raise Receiving:MaximumFileMegabytes or "
                + "Receiving:MaximumPaperMegabytes."),
            429 => ("Too many tries", "Wait a minute, then try again."),
            _ => ("Something went wrong on our side",
                "Nothing half done was kept. Try again; if it happens again, tell an administrator."),
        };
        Reference = status >= 500 ? Activity.Current?.TraceId.ToString() ?? HttpContext.TraceIdentifier : null;
    }
}
