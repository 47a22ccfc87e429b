namespace Accession.Core.Batches;

/// <summary>
/// What each column of a sender's list means. It is a proposal until a person agrees: nothing is dropped for want of
/// a meaning, and no two columns share a meaning that only one can have.
/// </summary>
public sealed class ColumnMatch
{
    private readonly bool _carriesNumbers;

    private ColumnMatch(IReadOnlyList<MatchedColumn> columns, bool carriesNumbers) =>
        (Columns, _carriesNumbers) = (columns, carriesNumbers);

    /// <summary>Every column of the list in its order, also those without a meaning.</summary>
    public IReadOnlyList<MatchedColumn> Columns { get; }

    /// <summary>
    /// Proposes a meaning for each heading: what a person chose last time for this source, else the Darwin Core
    /// term of that name, else what people usually mean by it.
    /// </summary>
    /// <param name="headers">The headings in the order of the columns.</param>
    /// <param name="rememberedForSource">
    /// What <see cref="Remembered"/> gave for an earlier list of the same source; null when there was none.
    /// </param>
    /// <param name="carriesNumbers">
    /// Whether the sheets are taken over with the numbers they bear: then one column is the catalog number itself, and
    /// otherwise none is.
    /// </param>
    public static ColumnMatch Propose(
        IReadOnlyList<string> headers, IReadOnlyDictionary<string, string>? rememberedForSource = null,
        bool carriesNumbers = false)
    {
        var remembered = (rememberedForSource ?? new Dictionary<string, string>())
            .DistinctBy(pair => MemoryKey(pair.Key))
            .ToDictionary(pair => MemoryKey(pair.Key), pair => pair.Value);
        var claims = headers.Select((heading, column) => Claim.Of(heading, column, remembered)).ToList();
        claims = WithNumbers([.. claims.Select(claim => claim.InTheCompanyOf(claims))], carriesNumbers);

        var taken = new Dictionary<ListField, Claim>();
        var columns = new MatchedColumn[claims.Count];
        foreach (var claim in claims.OrderBy(claim => claim.Rank).ThenBy(claim => claim.Column))
        {
            var winner = claim.Field is { IsSingle: true } field && !taken.TryAdd(field, claim) ? taken[field] : null;
            columns[claim.Column] = winner is null
                ? new(claim.Column, claim.Heading, claim.Field, claim.Reason, claim.Unit, claim.Note)
                : new(claim.Column, claim.Heading, null, MatchReason.NotMatched, claim.Unit,
                    $"This could be {claim.Field} too, which is already column {winner.Column + 1}, "
                    + $"\"{winner.Heading}\".");
        }

        return new(columns, carriesNumbers);
    }

    // Of a sender's list the number is the sender's. Of holdings it is ours: the likeliest column has it, unless one
    // says so itself.
    private static List<Claim> WithNumbers(List<Claim> claims, bool carriesNumbers)
    {
        if (!carriesNumbers)
        {
            return [.. claims.Select(claim => claim.Field != ListField.CatalogNumber ? claim : claim with
            {
                Field = ListField.OtherCatalogNumbers,
                Reason = claim.Reason == MatchReason.DarwinCoreName ? MatchReason.UsualSynonym : claim.Reason,
            })];
        }

        var likeliest = claims.Any(claim => claim.Field == ListField.CatalogNumber)
            ? null
            : claims.Where(claim => claim.Field == ListField.OtherCatalogNumbers)
                .OrderBy(claim => claim.Rank).ThenBy(claim => claim.Column).FirstOrDefault();
        return [.. claims.Select(claim => claim == likeliest
            ? claim with { Field = ListField.CatalogNumber }
            : claim)];
    }

    /// <summary>The match after a person chose a meaning for one column; another column that had it loses it.</summary>
    /// <param name="column">The column, from 0.</param>
    /// <param name="field">Its meaning; null to keep the column to the letter only.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such column.</exception>
    public ColumnMatch With(int column, ListField? field)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(column);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, Columns.Count);
        return new([.. Columns.Select(other =>
            other.Column == column ? other with { Field = field, Reason = MatchReason.ChosenByPerson, Note = null }
            : field is { IsSingle: true } && other.Field == field ? other with
            {
                Field = null,
                Reason = MatchReason.NotMatched,
                Note = $"{field} was given to column {column + 1}, \"{Columns[column].Heading}\".",
            }
            : other)], _carriesNumbers);
    }

    /// <summary>
    /// The match with the reasons that hold for this list. A match that was kept says "as last time" of every column;
    /// that is true only of what an earlier list of the source had too. The others say again why they were proposed,
    /// or that a person chose them.
    /// </summary>
    /// <param name="lastTime">What an earlier list of the same source was matched by; null when there was none.</param>
    public ColumnMatch Explained(IReadOnlyDictionary<string, string>? lastTime)
    {
        var before = (lastTime ?? new Dictionary<string, string>())
            .DistinctBy(pair => MemoryKey(pair.Key))
            .ToDictionary(pair => MemoryKey(pair.Key), pair => pair.Value);
        bool IsAsLastTime(MatchedColumn column) =>
            before.TryGetValue(MemoryKey(column.Heading), out var name) && name == (column.Field?.Name ?? "");

        var proposed = Propose([.. Columns.Select(column => column.Heading)], null, _carriesNumbers).Columns;
        return new([.. Columns.Zip(proposed, (column, plain) =>
            column.Reason != MatchReason.AsLastTime || IsAsLastTime(column) ? column
            : column.Field == plain.Field ? column with { Reason = plain.Reason, Note = plain.Note }
            : column with { Reason = MatchReason.ChosenByPerson })], _carriesNumbers);
    }

    /// <summary>
    /// What no column of the list says although rows are known by it: sentences that say what to do. Empty when rows
    /// can be known: by collector and number or, in place of the number, by date and plant name; sheets that carry
    /// their numbers by these alone.
    /// </summary>
    public IReadOnlyList<string> Lacks
    {
        get
        {
            bool Has(params ListField[] meanings) => Columns.Any(column => meanings.Contains(column.Field));
            var hasNumber = Has(ListField.RecordNumber, ListField.FieldNumber)
                || (Has(ListField.EventDate, ListField.VerbatimEventDate, ListField.Year)
                    && Has(ListField.ScientificName, ListField.Genus));
            if (_carriesNumbers)
            {
                return Has(ListField.CatalogNumber)
                    ? []
                    :
                    [
                        "No column gives the number that each sheet bears. Choose the column that holds it; without it "
                        + "no sheet of this list can be taken over.",
                    ];
            }

            List<string> lacks = [];
            if (!Has(ListField.RecordedBy, ListField.OtherCollectors))
            {
                lacks.Add(
                    "No column says who collected. Choose the column that holds the collector's name. If the list has "
                    + "none, let the sender add it and send the list again: a sheet without a collector cannot be "
                    + "found by its number, nor a corrected row be told from a new one.");
            }

            if (!hasNumber)
            {
                lacks.Add(
                    "No column gives the collector's number, nor do date and plant name stand in for it. Choose those "
                    + "columns, or ask the sender for them: otherwise a corrected row looks like a new one.");
            }

            return lacks;
        }
    }

    /// <summary>The columns that have a meaning, in their order; more than one only where that is allowed.</summary>
    /// <param name="field">The meaning.</param>
    public IReadOnlyList<MatchedColumn> Of(ListField field) => [.. Columns.Where(column => column.Field == field)];

    /// <summary>
    /// What to keep for the next list of this source: the heading, and the name of its meaning, empty where a
    /// person chose that it has none. Headings that merely were not recognised are left out, so that they may be later.
    /// </summary>
    public IReadOnlyDictionary<string, string> Remembered() => Columns
        .Where(column =>
            column.Field is not null || column.Reason is MatchReason.ChosenByPerson or MatchReason.AsLastTime)
        .DistinctBy(column => MemoryKey(column.Heading))
        .ToDictionary(column => column.Heading, column => column.Field?.Name ?? "");

    private static string MemoryKey(string heading) => heading.Trim().ToUpperInvariant();

    /// <summary>What one heading asks for, before it is known who else asks.</summary>
    private sealed record Claim(
        int Column, string Heading, ListField? Field, MatchReason Reason, HeadingUnit? Unit, int Rank, string? Note)
    {
        private static readonly string[] SpeciesWords = ["species", "especie", "art", "espece"];

        public static Claim Of(string heading, int column, Dictionary<string, string> remembered)
        {
            var text = HeadingText.Of(heading);
            if (remembered.TryGetValue(MemoryKey(heading), out var name)
                && (name.Length == 0 || ListField.Named(name) is not null))
            {
                return new(column, heading, ListField.Named(name), MatchReason.AsLastTime, text.Unit, -2, null);
            }

            foreach (var field in ListField.All)
            {
                if (field.IsDarwinCoreName && HeadingText.Fold(field.Name) == text.Whole)
                {
                    return new(column, heading, field, MatchReason.DarwinCoreName, null, -1, null);
                }
            }

            var usual = UsualHeadings.Find(text.Whole) ?? UsualHeadings.Find(text.Key) ?? OwnName(text.Whole);
            return usual is var (meaning, rank)
                ? new(column, heading, meaning, MatchReason.UsualSynonym, text.Unit, rank, null)
                : new(column, heading, null, MatchReason.NotMatched, text.Unit, int.MaxValue, null);
        }

        /// <summary>
        /// Two words mean something else beside other columns. "Species" is only the epithet where the genus has a
        /// column, and "Datum" is the German date where no other column has the date.
        /// </summary>
        public Claim InTheCompanyOf(List<Claim> others)
        {
            bool Has(ListField field) => others.Any(other => other != this && other.Field == field);
            var word = Reason == MatchReason.UsualSynonym ? HeadingText.Fold(Heading) : "";
            return SpeciesWords.Contains(word) && Has(ListField.Genus) && !Has(ListField.SpecificEpithet)
                ? this with
                {
                    Field = ListField.SpecificEpithet,
                    Note = "Taken as the epithet alone, because the genus has a column of its own.",
                }
                : word == "datum"
                    && !Has(ListField.EventDate) && !Has(ListField.VerbatimEventDate) && !Has(ListField.Year)
                    ? this with
                    {
                        Field = ListField.EventDate,
                        Note = "Taken as the German word for date, because no other column has a date.",
                    }
                    : this;
        }

        private static (ListField, int)? OwnName(string key) =>
            ListField.All.FirstOrDefault(field => HeadingText.Fold(field.Name) == key) is { } field ? (field, 0) : null;
    }
}
