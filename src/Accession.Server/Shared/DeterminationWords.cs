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
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    public static string Said(this SeenOn seen) => seen switch
    {
        SeenOn.Unknown => "",
        SeenOn.Sheet => "from the sheet",
        SeenOn.Image => "from a picture",
        SeenOn.Duplicate => "from another sheet of the gathering",
        _ => throw new ArgumentOutOfRangeException(nameof(seen)),
    };
}
