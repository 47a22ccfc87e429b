using Accession.Core.Batches;
using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>
/// An accession: the act by which the settled rows of a batch became ours, and the lot itself under its own number.
/// Rows of the same batch that are settled later join the same lot.
/// </summary>
public sealed class AccessionLot
{
    private AccessionLot()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The accession number, from its own series; never a catalog number.</summary>
    public string Number { get; private set; } = "";

    /// <summary>The batch whose rows it took in.</summary>
    public long BatchId { get; private set; }

    /// <summary>The act that took it in.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that took it in.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>On what terms it became ours.</summary>
    public AccessionTerms Terms { get; private set; }

    /// <summary>Conditions the giver made, if any.</summary>
    public string? Conditions { get; private set; }

    /// <summary>In what state the sheets came: dry, mouldy, insects seen, damaged.</summary>
    public string? ConditionOnArrival { get; private set; }

    /// <summary>
    /// What could hurt somebody: residues of mercury or arsenic, irritant plants, viable seed of weeds.
    /// </summary>
    public string? Hazards { get; private set; }

    /// <summary>The sheets that the settled rows of the list promised when the lot was taken in.</summary>
    public int SheetsOnList { get; private set; }

    /// <summary>
    /// Whether its sheets lay in a pile and were counted: nobody counts what stands in the cabinets already.
    /// </summary>
    public bool IsPileCounted => Terms != AccessionTerms.TakenOver;

    /// <summary>The sheets counted in the pile; 0 where nobody counted.</summary>
    public int SheetsInPile { get; private set; }

    /// <summary>Why list and pile differ, where they do.</summary>
    public string? CountNote { get; private set; }

    /// <summary>Renewed by every verb, so that two people who change the lot at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>What a curator states when taking a lot in.</summary>
    /// <param name="Terms">On what terms it became ours.</param>
    /// <param name="SheetsInPile">The sheets counted in the pile; 0 or more.</param>
    /// <param name="CountNote">Why list and pile differ; needed when they do.</param>
    /// <param name="Conditions">Conditions the giver made, if any.</param>
    /// <param name="ConditionOnArrival">In what state the sheets came.</param>
    /// <param name="Hazards">What could hurt somebody.</param>
    public sealed record Statement(
        AccessionTerms Terms,
        int SheetsInPile,
        string? CountNote,
        string? Conditions,
        string? ConditionOnArrival,
        string? Hazards)
    {
        /// <summary>What was counted.</summary>
        public PileCount Count => new(SheetsInPile, CountNote);
    }

    /// <summary>Takes a lot in under a number, or says why the count must be explained first.</summary>
    /// <param name="number">The accession number that was issued for it.</param>
    /// <param name="batch">The batch.</param>
    /// <param name="sheetsOnList">The sheets that the settled rows promise.</param>
    /// <param name="statement">What the curator states.</param>
    /// <param name="act">The act of taking in.</param>
    public static Outcome<AccessionLot> TakeIn(
        string number, Batch batch, int sheetsOnList, Statement statement, Act act)
    {
        if (statement.Terms == AccessionTerms.TakenOver || batch.CarriesNumbers)
        {
            return new Refusal(RefusalKind.Invalid,
                "Sheets that bear their numbers are taken over with them, and on no other terms.");
        }

        if (statement.Count.WhyNot(sheetsOnList) is { } refusal)
        {
            return refusal;
        }

        return new AccessionLot
        {
            Number = number,
            BatchId = batch.Id,
            Act = act,
            Terms = statement.Terms,
            Conditions = statement.Conditions,
            ConditionOnArrival = statement.ConditionOnArrival,
            Hazards = statement.Hazards,
            SheetsOnList = sheetsOnList,
            SheetsInPile = statement.SheetsInPile,
            CountNote = statement.CountNote,
            Version = Guid.NewGuid(),
        };
    }

    /// <summary>Takes sheets over with the numbers they bear, under a number for the lot.</summary>
    /// <param name="number">The accession number that was issued for it.</param>
    /// <param name="batch">The batch, whose sheets bear their numbers.</param>
    /// <param name="sheets">The sheets of the rows that go in.</param>
    /// <param name="conditions">Conditions under which they came, if any are known.</param>
    /// <param name="hazards">What could hurt somebody.</param>
    /// <param name="act">The act of taking over.</param>
    public static Outcome<AccessionLot> TakeOver(
        string number, Batch batch, int sheets, string? conditions, string? hazards, Act act) => batch.CarriesNumbers
        ? new AccessionLot
        {
            Number = number,
            BatchId = batch.Id,
            Act = act,
            Terms = AccessionTerms.TakenOver,
            Conditions = conditions,
            Hazards = hazards,
            SheetsOnList = sheets,
            Version = Guid.NewGuid(),
        }
        : new Refusal(RefusalKind.Invalid, "The sheets of this batch get their numbers here: take it in.");

    /// <summary>Adds the sheets of rows that were settled after the lot was taken over.</summary>
    /// <param name="sheets">How many.</param>
    /// <exception cref="InvalidOperationException">The lot lay in a pile, which is counted again.</exception>
    public void JoinTakenOver(int sheets)
    {
        if (IsPileCounted)
        {
            throw new InvalidOperationException($"The pile of {Number} has to be counted again.");
        }

        SheetsOnList += sheets;
        Version = Guid.NewGuid();
    }

    /// <summary>
    /// Adds the sheets of rows that were settled after the lot was taken in, or says why the pile must be counted or
    /// explained first: a count of the rows before says nothing about these.
    /// </summary>
    /// <param name="sheets">How many sheets those rows promise.</param>
    /// <param name="count">The sheets in the whole pile, with those taken in before.</param>
    public Refusal? Join(int sheets, PileCount count)
    {
        if (count.WhyNot(SheetsOnList + sheets) is { } refusal)
        {
            return refusal;
        }

        SheetsOnList += sheets;
        SheetsInPile = count.Sheets;
        CountNote = count.Sheets == SheetsOnList ? null : count.Note;
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>
    /// Counts the list by the rows that really went in: some may have had to stay behind, because the register had
    /// changed since they were settled.
    /// </summary>
    /// <param name="sheetsOnList">The sheets that the rows taken in promise.</param>
    public void CountList(int sheetsOnList)
    {
        if (SheetsOnList != sheetsOnList)
        {
            SheetsOnList = sheetsOnList;
            Version = Guid.NewGuid();
        }
    }
}
