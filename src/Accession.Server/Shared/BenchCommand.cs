using Accession.Core.Specimens;

namespace Accession.Server.Shared;

/// <summary>What a command asks for.</summary>
public enum CommandKind
{
    /// <summary>Take my last scan back.</summary>
    Undo,

    /// <summary>The sheet in hand is of the same gathering as the last one.</summary>
    SameAsLast,

    /// <summary>Whoever is signed in works again.</summary>
    HandBack,

    /// <summary>From now on sheets are marked with a step.</summary>
    Step,

    /// <summary>From now on sheets go to a place.</summary>
    Place,

    /// <summary>From now on sheets and parcels go on the list of a freezer's load.</summary>
    Freezer,
}

/// <summary>
/// A word at the scan line that is no code of a sheet: typed, or scanned from the card of commands. The words are on
/// the card as they are here; small letters and capitals are the same.
/// </summary>
/// <param name="Kind">What it asks for.</param>
/// <param name="Step">The step, where it is one.</param>
/// <param name="Name">The name of the place or freezer, where it is one.</param>
public sealed record BenchCommand(CommandKind Kind, Step? Step = null, string Name = "")
{
    public const string Undo = "undo";
    public const string SameAsLast = "same as last";
    public const string HandBack = "hand back";
    public const string PlaceLead = "place ";
    public const string FreezerLead = "freezer ";

    /// <summary>
    /// What changes the doing of the scans after it: the page knows it too, so that scans made while the network is
    /// gone go where they were meant to.
    /// </summary>
    public const string DoingPattern = "^(mounted|labelled|photographed|imaged|filed|place .+|freezer .+)$";

    /// <summary>The steps that are done at a bench, and the word of each.</summary>
    public static IReadOnlyList<(Step Step, string Word)> Steps { get; } =
    [
        (Core.Specimens.Step.Mounted, "mounted"), (Core.Specimens.Step.Labelled, "labelled"),
        (Core.Specimens.Step.Imaged, "photographed"), (Core.Specimens.Step.Filed, "filed"),
    ];

    /// <summary>The word that asks for it.</summary>
    public string Word => Kind switch
    {
        CommandKind.Undo => Undo,
        CommandKind.SameAsLast => SameAsLast,
        CommandKind.HandBack => HandBack,
        CommandKind.Place => PlaceLead + Name,
        CommandKind.Freezer => FreezerLead + Name,
        _ => WordOf(Step!.Value),
    };

    /// <summary>The word of a step.</summary>
    public static string WordOf(Step step) => Steps.Single(one => one.Step == step).Word;

    /// <summary>What a scan asks for; null when it is no command.</summary>
    public static BenchCommand? Read(string? scanned)
    {
        var text = string.Join(' ', (scanned ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return Is(text, Undo) ? new(CommandKind.Undo)
            : Is(text, SameAsLast) ? new(CommandKind.SameAsLast)
            : Is(text, HandBack) ? new(CommandKind.HandBack)
            : Is(text, "imaged") ? new(CommandKind.Step, Core.Specimens.Step.Imaged)
            : Steps.Where(one => Is(text, one.Word)).Select(one => new BenchCommand(CommandKind.Step, one.Step))
                .FirstOrDefault()
            ?? Named(text, PlaceLead, CommandKind.Place) ?? Named(text, FreezerLead, CommandKind.Freezer);
    }

    private static BenchCommand? Named(string text, string lead, CommandKind kind) =>
        text.StartsWith(lead, StringComparison.OrdinalIgnoreCase) ? new(kind, null, text[lead.Length..]) : null;

    private static bool Is(string text, string word) => text.Equals(word, StringComparison.OrdinalIgnoreCase);
}
