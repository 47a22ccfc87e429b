using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Rows from a spreadsheet without a file. They travel as one field, so their number does not matter to the form, and
/// are looked at before they become a batch.
/// </summary>
public sealed class PasteModel(
    AccessionDb db, ReceiveList receive, ReceivedFiles files, InstitutionClock clock, TimeProvider time,
    IOptions<ReceivingOptions> options) : PageModel
{
    private const int SampleRows = 8;
    private const int MostSources = 500;

    private static readonly Refusal RowsAreOthers = new(
        RefusalKind.Conflict, "The rows are others than those you looked at. Look at them once more.");

    [BindProperty]
    public string? SourceName { get; set; }

    /// <summary>What was pasted.</summary>
    [BindProperty]
    public string? Text { get; set; }

    [BindProperty]
    public bool CarriesNumbers { get; set; }

    /// <summary>Whether the first line are headings: yes, no, or empty to see whether it looks so.</summary>
    [BindProperty]
    public string? HasHeadings { get; set; }

    /// <summary>What was looked at, so that meanings are not given to columns that nobody saw.</summary>
    [BindProperty]
    public string? LookedAt { get; set; }

    /// <summary>What each column was chosen to mean, by its place.</summary>
    public IReadOnlyDictionary<int, string> Chosen { get; private set; } = new Dictionary<int, string>();

    /// <summary>The rows as they would be read; null before they were looked at.</summary>
    public PastedRows? Rows { get; private set; }

    public int Count { get; private set; }

    public IReadOnlyList<ColumnsModel.SampleRow> Sample { get; private set; } = [];

    public IReadOnlyList<string> Sources { get; private set; } = [];

    /// <summary>What a column of this list can mean.</summary>
    public IEnumerable<ListField> Fields =>
        ListField.All.Where(meaning => CarriesNumbers || meaning != ListField.CatalogNumber);

    public bool IsShown(MatchedColumn column, ListField field) =>
        Chosen.TryGetValue(column.Column, out var name) ? name == field.Name : column.Field == field;

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(string? step, CancellationToken cancellation)
    {
        Chosen = FormFields.Of(Request.Form, nameof(Chosen))
            .Where(field => int.TryParse(field.Key, out _))
            .ToDictionary(field => int.Parse(field.Key, CultureInfo.InvariantCulture), field => field.Value);
        var read = await ReadAsync(cancellation);
        if (read.IsRefused)
        {
            LookedAt = null;
            return await RefuseAsync(read.Refusals.ToList(), nameof(Text), cancellation);
        }

        HasHeadings = read.Value.HasHeadings ? "yes" : "no";
        var seen = Seen();
        if (LookedAt != seen)
        {
            Chosen = new Dictionary<int, string>();
        }

        if (step != "receive" || LookedAt != seen)
        {
            var isChanged = step == "receive" && LookedAt is { Length: > 0 };
            Show(read.Value, seen);
            return isChanged
                ? await RefuseAsync([RowsAreOthers], nameof(Text), cancellation)
                : await ShownAsync(cancellation);
        }

        return await ReceiveAsync(read.Value, seen, cancellation);
    }

    private async Task<IActionResult> ReceiveAsync(PastedRows rows, string seen, CancellationToken cancellation)
    {
        using var content = new MemoryStream(rows.File);
        var day = clock.Day(time.GetUtcNow().UtcDateTime).ToString("d MMM yyyy", CultureInfo.InvariantCulture);
        var kept = await files.KeepAsync(content, $"pasted on {day}", cancellation);
        var outcome = await receive.RunAsync(
            new(SourceName, null, kept, CarriesNumbers) { Meanings = Meanings(rows) }, HttpContext.Door(),
            cancellation);
        if (outcome.IsRefused)
        {
            Show(rows, seen);
            return await RefuseAsync(outcome.Refusals, nameof(SourceName), cancellation);
        }

        TempData["Said"] = outcome.Value.WasHere
            ? "These very rows were received before: nothing was changed. Here is their batch."
            : $"The rows are here as batch {outcome.Value.BatchId}. They are being read.";
        return Redirect($"/batch/{outcome.Value.BatchId}");
    }

    private Dictionary<string, string> Meanings(PastedRows rows) => rows.Match.Columns.ToDictionary(
        column => column.Heading,
        column => (Chosen.TryGetValue(column.Column, out var name) ? name : column.Field?.Name) ?? "");

    private async Task<Outcome<PastedRows>> ReadAsync(CancellationToken cancellation)
    {
        var folded = Source.Fold(SourceName ?? "");
        var remembered = await db.Sources.Where(source => source.FoldedName == folded)
            .Select(source => source.RememberedMatch).SingleOrDefaultAsync(cancellation) ?? "{}";
        bool? hasHeadings = HasHeadings switch { "yes" => true, "no" => false, _ => null };
        return PastedRows.Read(Text ?? "", hasHeadings, remembered, CarriesNumbers, options.Value.Limits);
    }

    private void Show(PastedRows rows, string seen)
    {
        (Rows, LookedAt) = (rows, seen);
        // What the form sent would otherwise stand in the fields again.
        ModelState.Remove(nameof(LookedAt));
        ModelState.Remove(nameof(HasHeadings));
        List<ColumnsModel.SampleRow> sample = [];
        foreach (var row in rows.Table.Rows())
        {
            Count++;
            if (sample.Count < SampleRows && !row.IsRefused)
            {
                sample.Add(new(row.Line, row.Cells));
            }
        }

        Sample = sample;
    }

    // Of the text as it would be kept, with the answer about its headings.
    private string Seen() =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{HasHeadings}\n{Text}")));

    private async Task<IActionResult> RefuseAsync(
        IReadOnlyList<Refusal> refusals, string field, CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        return this.Show(refusals, field);
    }

    private async Task<IActionResult> ShownAsync(CancellationToken cancellation)
    {
        ViewData["Said"] = "Nothing is received yet. Look at the first rows and at what their columns mean.";
        await LoadAsync(cancellation);
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation) =>
        Sources = await db.Sources.OrderBy(source => source.FoldedName).Select(source => source.Name)
            .Take(MostSources).ToListAsync(cancellation);
}
