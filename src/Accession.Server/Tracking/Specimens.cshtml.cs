using Accession.Server.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Tracking;

/// <summary>
/// The register of numbered sheets, newest first; found by catalog number, or by collector and number.
/// </summary>
public sealed class SpecimensModel(RegisterSheets register, TypedNumbers typed) : PageModel
{
    private const int PageSize = 50;

    public string? Query { get; private set; }

    public IReadOnlyList<RegisterSheets.Sheet> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    public string Says => Query is null ? "Every sheet that has a number." : $"What answers to \"{Query}\".";

    public async Task<IActionResult> OnGetAsync(string? q, long? before, CancellationToken cancellation)
    {
        Query = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        var meant = Query is null ? null : await typed.FindAsync(Query, cancellation);
        if (meant?.Certain is { } written)
        {
            return Redirect(SpecimenAddress.Of(written));
        }

        var sheets = await register.BeforeAsync(
            Query, meant?.Possible ?? [], before, PageSize + 1, cancellation);
        Shown = [.. sheets.Take(PageSize)];
        Next = sheets.Count > PageSize ? Shown[^1].Id : null;
        return Page();
    }
}
