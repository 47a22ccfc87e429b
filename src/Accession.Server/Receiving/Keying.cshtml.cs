using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Receiving;

/// <summary>
/// One label after another. Each is kept as it is sent; the next begins with what was said to be the same, and a ditto
/// mark alone in a field means what stood there on the label before.
/// </summary>
public sealed class KeyingModel(AccessionDb db, KeyLabel key, InstitutionClock clock, TimeProvider time) : PageModel
{
    /// <summary>Signs that people write for "as above".</summary>
    private static readonly string[] Dittos = ["\"", "\u201D", "\u201E", "\u2033", "\u3003", "''"];

    /// <summary>What is typed, by heading.</summary>
    public Dictionary<string, string> Typed { get; private set; } = [];

    /// <summary>The fields with which the next label begins as this one has them.</summary>
    [BindProperty(SupportsGet = true)]
    public List<string> Again { get; set; } = [];

    /// <summary>The row that is corrected; null for another label.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Row { get; set; }

    /// <summary>The line before which labels are shown; null for the last ones.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Before { get; set; }

    public KeyedPile Pile { get; private set; } = null!;

    /// <summary>The labels that stand beneath the form.</summary>
    public IReadOnlyList<KeyedPile.Label> Shown { get; private set; } = [];

    /// <summary>The label that is corrected.</summary>
    public KeyedPile.Label? Corrected { get; private set; }

    /// <summary>The label before, which "the same" means.</summary>
    public KeyedPile.Label? Last => Pile.Last.Count == 0 ? null : Pile.Last[0];

    public string Text(TypedField field) => Typed.GetValueOrDefault(field.Heading) ?? "";

    /// <summary>The field in which typing begins: the first that is empty.</summary>
    public string Begins =>
        TypedFields.All.FirstOrDefault(one => Text(one).Length == 0)?.Heading ?? TypedFields.All[0].Heading;

    public async Task<IActionResult> OnGetAsync(long id, string? same, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        if (Corrected is { } corrected)
        {
            Typed = TypedFields.All.ToDictionary(field => field.Heading, field => corrected.Text(field.Heading));
        }
        else if (Last is { } last)
        {
            Typed = TypedFields.All.Where(field => same == "all" || Again.Contains(field.Heading))
                .ToDictionary(field => field.Heading, field => last.Text(field.Heading));
        }

        return Page();
    }

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        Typed = FormFields.Of(Request.Form, nameof(Typed));
        foreach (var field in TypedFields.All.Where(field => Dittos.Contains(Text(field).Trim())))
        {
            Typed[field.Heading] = Last?.Text(field.Heading) ?? "";
        }

        var outcome = await key.RunAsync(
            new(id, TypedFields.All.ToDictionary(field => field.Heading, Text), Row), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = Row is null
            ? $"Line {outcome.Value.Line} is kept: {Named().WithStop()}"
            : $"Line {outcome.Value.Line} is corrected: {Named().WithStop()} What stood there stays on record.";
        return Redirect($"/batch/{id}/keying{Query()}");
    }

    public async Task<IActionResult> OnPostTakeOutAsync(long id, long rowId, CancellationToken cancellation)
    {
        var outcome = await key.TakeOutAsync(id, rowId, HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"Line {outcome.Value.Line} is taken out of the pile. It stays on record.";
            return Redirect($"/batch/{id}/keying{Query()}");
        }

        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private string Named()
    {
        string[] parts = [Typed.GetValueOrDefault("Collector") ?? "", Typed.GetValueOrDefault("Number") ?? ""];
        var named = string.Join(' ', parts.Where(part => part.Length > 0));
        return named.Length > 0 ? named : Typed.GetValueOrDefault("Name") is { Length: > 0 } name ? name : "a label";
    }

    private string Query() => Again.Count == 0
        ? ""
        : "?" + string.Join('&', Again.Select(heading => $"again={Uri.EscapeDataString(heading)}"));

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var now = time.GetUtcNow().UtcDateTime;
        var dayBegan = clock.Utc(clock.Day(now).ToDateTime(TimeOnly.MinValue));
        Again = [.. Again.Where(heading => TypedFields.All.Any(field => field.Heading == heading)).Distinct()];
        if (await KeyedPile.OfAsync(db, id, User.Actor().Id, now, dayBegan, cancellation) is not { } pile)
        {
            return false;
        }

        Pile = pile;
        Shown = Before is { } line ? await KeyedPile.EarlierAsync(db, id, line, cancellation) : pile.Last;
        Corrected = Row is { } row ? await KeyedPile.LabelAsync(db, id, row, cancellation) : null;
        return Row is null || Corrected is not null || HttpMethods.IsPost(Request.Method);
    }
}
