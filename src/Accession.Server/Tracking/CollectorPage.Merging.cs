using Accession.Server.Hosting;
using Accession.Server.Shared;
using Microsoft.AspNetCore.Mvc;

namespace Accession.Server.Tracking;

public sealed partial class CollectorPageModel
{
    /// <summary>The other collector that was chosen and refused; null where none was.</summary>
    public long? TypedOther { get; private set; }

    /// <summary>How it is known, as it was typed and refused.</summary>
    public string? TypedHow { get; private set; }

    /// <summary>The splitting that was typed and refused; null where none was.</summary>
    public SplitPerson.Request? TypedSplit { get; private set; }

    public async Task<IActionResult> OnPostMergeAsync(
        long id, long other, string? how, [FromServices] MergePersons merge, CancellationToken cancellation)
    {
        (TypedOther, TypedHow) = (other, how);
        return await AnswerAsync(
            id, await merge.RunAsync(other, id, how, HttpContext.Door(), cancellation),
            name => $"Both are {name} from now on.", cancellation);
    }

    public async Task<IActionResult> OnPostUnmergeAsync(
        long id, long other, string? how, [FromServices] MergePersons merge, CancellationToken cancellation)
    {
        (TypedOther, TypedHow) = (other, how);
        return await AnswerAsync(
            id, await merge.TakeBackAsync(other, id, how, HttpContext.Door(), cancellation),
            name => $"They are two again: {name} is one of them.", cancellation);
    }

    public async Task<IActionResult> OnPostSplitAsync(
        long id, string? name, List<string> split, string? how, [FromServices] SplitPerson splitting,
        CancellationToken cancellation)
    {
        TypedSplit = new(id, name, split, how);
        var outcome = await splitting.RunAsync(TypedSplit, HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"{name?.Trim()} is on record with what was chosen.";
            return Redirect($"/collector/{outcome.Value}");
        }

        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : await ElsewhereAsync(id, cancellation);
    }

    // An old address leads on to the person who was merged into, however often.
    private async Task<IActionResult> ElsewhereAsync(long id, CancellationToken cancellation)
    {
        if (await read.WhereToAsync(id, cancellation) is not { } other)
        {
            return NotFound();
        }

        TempData["Said"] ??= $"{other.From} was merged into {other.Name.WithStop()}";
        return Redirect($"/collector/{other.Id}");
    }
}
