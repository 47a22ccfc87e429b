using System.ComponentModel;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace Accession.Server.Hosting;

/// <summary>Which page of a list is asked for, by key: what comes in meanwhile moves nothing.</summary>
internal sealed class Paging
{
    private const int Usual = 50;
    private const int Most = 500;

    [FromQuery(Name = "limit"), Description("How many at most, 1 to 500; 50 without.")]
    public int? Limit { get; init; }

    [FromQuery(Name = "cursor"), Description("Where the page begins, from the Link header of the page before.")]
    public string? Cursor { get; init; }

    public required HttpContext Context { get; init; }

    public required Cursors Cursors { get; init; }

    private int Size => Limit ?? Usual;

    /// <summary>How many are asked of the register: one more shows that there is a next page.</summary>
    public int Take => Size + 1;

    // The question is part of the list: a cursor of one is none of another.
    private string List => Context.Request.Path + QueryString.Create(
        QueryHelpers.ParseQuery(Context.Request.QueryString.Value)
            .Where(pair => pair.Key is not ("limit" or "cursor"))
            .OrderBy(pair => pair.Key, StringComparer.Ordinal)).ToString();

    /// <summary>Says why there is no such page; otherwise the key behind which it begins, null for the first.</summary>
    public Refused? WhyNot(out long[]? after)
    {
        after = Cursor is null ? null : Cursors.Read(List, Cursor);
        return Limit is < 1 or > Most ? Wrong("The limit is a number from 1 to 500.")
            : Cursor is not null && after is null
                ? Wrong("The cursor is damaged, or of another list. Begin again without one.")
                : null;
    }

    /// <summary>Shows the page, and where the next begins.</summary>
    /// <param name="found">What was found, one more than the page holds where there is a next.</param>
    /// <param name="keyOf">The key by which the list is in order.</param>
    public Ok<Listed<T>> Show<T>(IReadOnlyList<T> found, Func<T, long[]> keyOf)
    {
        if (found.Count > Size)
        {
            var query = QueryHelpers.ParseQuery(Context.Request.QueryString.Value);
            query["limit"] = Size.ToString(System.Globalization.CultureInfo.InvariantCulture);
            query["cursor"] = Cursors.Write(List, keyOf(found[Size - 1]));
            Context.Response.Headers.Link =
                $"<{Context.Request.PathBase}{Context.Request.Path}{QueryString.Create(query)}>; rel=\"next\"";
        }

        return TypedResults.Ok(new Listed<T>([.. found.Take(Size)]));
    }

    private static Refused Wrong(string why) => new(Problem.Of(StatusCodes.Status400BadRequest, why));
}

/// <summary>A page of a list.</summary>
/// <param name="Items">What is on it; the header Link leads to the next page while there is one.</param>
internal sealed record Listed<T>(IReadOnlyList<T> Items);
