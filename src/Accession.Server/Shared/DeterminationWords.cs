using Accession.Core.Determinations;

namespace Accession.Server.Shared;

/// <summary>What kinds of opinions are called, and on what they rest.</summary>
internal static class DeterminationWords
{
    public static string Said(this DeterminationKind kind) => kind switch
    {
        DeterminationKind.Listed => "on the list",
        DeterminationKind.NewName => "det.",
        DeterminationKind.Confirmation => "conf.",
        DeterminationKind.NewerName => "newer name for the same plant",
        DeterminationKind.Rejection => "name denied by",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Who said so, behind what it was: "det. Ivo Larch".</summary>
    public static string SaidBy(this DeterminationKind kind, string who) => kind switch
    {
        _ when who.Length == 0 => kind == DeterminationKind.Rejection ? "name denied" : kind.Said(),
        DeterminationKind.Listed => who,
        DeterminationKind.NewerName => $"{kind.Said()}, {who}",
        _ => $"{kind.Said()} {who}",
    };

    /// <summary>What stands before the name: what only denies it must not read like a name.</summary>
    public static string Before(this DeterminationKind kind) => kind == DeterminationKind.Rejection ? "not " : "";

    public static string Said(this SeenOn seen) => seen switch
    {
        SeenOn.Unknown => "",
        SeenOn.Sheet => "from the sheet",
        SeenOn.Image => "from a picture",
        SeenOn.Duplicate => "from another sheet of the gathering",
        _ => throw new ArgumentOutOfRangeException(nameof(seen)),
    };
}
