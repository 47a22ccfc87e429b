using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Receiving;

public sealed class BatchPageModel(
    AccessionDb db, SettleList settle, TellLists tell, ReceiveList receive, ReceivedFiles files,
    InstitutionClock clock) : PageModel
{
    public BatchSummary Shown { get; private set; } = null!;

    public ShownProgress? Work { get; private set; }

    public bool IsBusy => Work is { IsFinished: false };

    public IReadOnlyList<ShownPaper> Papers { get; private set; } = [];

    public IReadOnlyList<ShownPermit> Permits { get; private set; } = [];

    public IReadOnlyList<ShownParcel> Parcels { get; private set; } = [];

    public IReadOnlyList<BatchTask> Tasks { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ?? Page();

    public async Task<IActionResult> OnPostOrderAsync(long id, DayMonthOrder order, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await settle.OrderAsync(id, order, HttpContext.Door(), cancellation),
            "Settled. The rows are being read again.", cancellation);

    public async Task<IActionResult> OnPostNumbersAsync(
        long id, bool carriesNumbers, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await settle.NumbersAsync(id, carriesNumbers, HttpContext.Door(), cancellation),
            "Noted. The rows are being read again.", cancellation);

    public async Task<IActionResult> OnPostAnotherAsync(long id, CancellationToken cancellation) => await AnswerAsync(
        id, await tell.AnotherAsync(id, HttpContext.Door(), cancellation),
        "It stays a batch of its own.", cancellation);

    public async Task<IActionResult> OnPostSameAsync(long id, CancellationToken cancellation) => await AnswerAsync(
        id, await tell.SameAsync(id, HttpContext.Door(), cancellation),
        "It belongs to this batch. It is being compared with what came before.", cancellation);

    public async Task<IActionResult> OnPostAgainAsync(long id, IFormFile? file, CancellationToken cancellation)
    {
        if (file is null)
        {
            return await AnswerAsync<long>(
                id, new Refusal(RefusalKind.Invalid, "Choose the file that holds the list."), "", cancellation);
        }

        await using var content = file.OpenReadStream();
        var kept = await files.KeepAsync(content, file.FileName, cancellation);
        var outcome = await receive.RunAsync(new(null, id, kept), HttpContext.Door(), cancellation);
        return await AnswerAsync(
            id, outcome,
            !outcome.IsRefused && outcome.Value.WasHere
                ? "This very list was received before: nothing was changed."
                : $"{kept.FileName} is here. It is being compared with what came before.",
            cancellation);
    }

    /// <summary>How much the list is like an earlier one, in words.</summary>
    public string Alike(BatchSummary.Likeness like) => (like.ToTheLetter, like.Alike - like.ToTheLetter) switch
    {
        (var same, 0) => $"Of its {Shown.Latest.Counts.Rows:N0} rows, {same:N0} stand there to the letter.",
        (0, var alike) => $"Of its {Shown.Latest.Counts.Rows:N0} rows, "
            + $"{alike:N0} have the collector and number of a row there.",
        (var same, var alike) => $"Of its {Shown.Latest.Counts.Rows:N0} rows, {same:N0} stand there to the letter, and "
            + $"{alike:N0} more have the collector and number of a row there.",
    };

    /// <summary>What a date proves, for people.</summary>
    public string Says(DayMonthEvidence evidence) => evidence switch
    {
        DayMonthEvidence.ProvesDayFirst => "the day comes first",
        DayMonthEvidence.ProvesMonthFirst => "the month comes first",
        _ => "nothing: it can be either",
    };

    /// <summary>What the other dates of the list say to the question.</summary>
    public string Proof => Shown.Dates switch
    {
        { ProvingDayFirst: var days and > 0, ProvingMonthFirst: 0 } =>
            $"Its other dates prove day first, {days:N0} to none.",
        { ProvingDayFirst: 0, ProvingMonthFirst: var months and > 0 } =>
            $"Its other dates prove month first, {months:N0} to none.",
        { ProvingDayFirst: > 0, ProvingMonthFirst: > 0 } dates =>
            $"Its other dates contradict each other: {dates.ProvingDayFirst:N0} prove day first, "
                + $"{dates.ProvingMonthFirst:N0} month first.",
        _ => "No other date of the list helps.",
    };

    /// <summary>How a doubtful date of the list would be read.</summary>
    public string ExampleRead(DayMonthOrder order)
    {
        var doubtful = Shown.Dates.Examples.FirstOrDefault(e => e.Evidence == DayMonthEvidence.Either);
        var read = doubtful is null
            ? default
            : CollectingDate.Read(doubtful.Text, order, clock.Day(Shown.Lists[^1].At));
        return doubtful is not null && read.IsRead ? $": {doubtful.Text} is {read.Value.ForPeople()}" : "";
    }

    private async Task<IActionResult> AnswerAsync<T>(
        long id, Outcome<T> outcome, string said, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said;
            return Redirect($"/batch/{(outcome.Value is long batch ? batch : id)}");
        }

        return await LoadAsync(id, cancellation) ?? this.Show(outcome.Refusals);
    }

    private async Task<IActionResult?> LoadAsync(long id, CancellationToken cancellation)
    {
        // Asked in this order, work that ends in between still shows as running, and the page then looks again by
        // itself; asked the other way round, it would show half of a list and stay so.
        Work = await BatchSummary.RunningAsync(db, id, cancellation);
        if (await BatchSummary.OfAsync(db, id, cancellation) is not { } summary)
        {
            return NotFound();
        }

        if (summary.JoinedTo is { } earlier)
        {
            TempData["Said"] = $"This list belongs to batch {earlier}: it is that list again.";
            return Redirect($"/batch/{earlier}");
        }

        Shown = summary;
        Papers = await ShownPaper.OfAsync(db, id, cancellation);
        Permits = await ShownPermit.OfAsync(db, id, cancellation);
        Parcels = await ShownParcel.OfAsync(db, id, cancellation);
        Tasks = BatchTask.For(summary, IsBusy);
        return null;
    }
}
