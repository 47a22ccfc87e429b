namespace Accession.Core.Numbers;

/// <summary>
/// A number that the counter gave out for the next sheets and that is on none yet. Whoever numbers a sheet takes the
/// lowest that nobody else is taking at that moment; when that fails, the number lies ready as before.
/// </summary>
public sealed class ReadyNumber
{
    /// <summary>How many are laid ready at a time: as many as may be numbering sheets at one moment.</summary>
    public const int AtATime = 64;

    private ReadyNumber()
    {
    }

    /// <summary>The series it is of.</summary>
    public long SeriesId { get; private set; }

    /// <summary>The running number.</summary>
    public long Number { get; private set; }

    /// <summary>The number in the form that is stored and printed.</summary>
    public string Written { get; private set; } = "";

    /// <summary>
    /// Whether the next ones are laid ready when this one is taken: it is the first of its laying, so there is always a
    /// laying ahead and nobody has to wait for one.
    /// </summary>
    public bool IsFirstOfLaying { get; private set; }

    /// <summary>Whether nobody may take it, because its series is closed.</summary>
    public bool IsWithheld { get; private set; }

    /// <summary>Withholds it while its series is closed.</summary>
    public void Withhold() => IsWithheld = true;

    /// <summary>Lets it be taken again, because its series was opened.</summary>
    public void Release() => IsWithheld = false;

    internal static ReadyNumber Of(NumberSeries series, IssuedNumber issued, bool isFirst) => new()
    {
        SeriesId = series.Id,
        Number = issued.Number,
        Written = issued.Written,
        IsFirstOfLaying = isFirst,
    };
}
