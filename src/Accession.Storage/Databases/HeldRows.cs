using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases;

/// <summary>Rows that are read to be changed, in whole and inside a transaction.</summary>
public static class HeldRows
{
    internal const string WaitingMark = "held until the transaction ends";
    internal const string TogetherMark = "kept from changing until the transaction ends";
    internal const string FreeMark = "held until the transaction ends, unless somebody else holds it";

    /// <summary>
    /// Holds what the query finds, read as it is when whoever held it before is done. On SQLite the transaction holds
    /// everything already. A gathering is held before a series: two who did it the other way round would wait for each
    /// other.
    /// </summary>
    public static IQueryable<T> Held<T>(this IQueryable<T> rows) => rows.TagWith(WaitingMark);

    /// <summary>
    /// Keeps what the query finds from being changed. Many can do so together; who holds it waits for them all.
    /// </summary>
    public static IQueryable<T> HeldTogether<T>(this IQueryable<T> rows) => rows.TagWith(TogetherMark);

    /// <summary>Holds what the query finds and passes over what somebody else holds, so nobody waits.</summary>
    public static IQueryable<T> HeldUnlessTaken<T>(this IQueryable<T> rows) => rows.TagWith(FreeMark);
}
