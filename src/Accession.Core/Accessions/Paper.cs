using Accession.Core.Batches;
using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>
/// A paper that came with a batch: transmittal list, deed of gift, permit, certificate, letter. It may name landowners
/// and exact places, and counts as exact. It is never deleted; a paper set aside stays, with the reason.
/// </summary>
public sealed class Paper
{
    /// <summary>The longest file name that is kept, in characters; of a longer one, its end.</summary>
    public const int LongestName = 300;

    /// <summary>The longest remark, in characters.</summary>
    public const int LongestRemark = 2000;

    private Paper()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch it came with.</summary>
    public long BatchId { get; private set; }

    /// <summary>What it is.</summary>
    public PaperKind Kind { get; private set; }

    /// <summary>The file's name as it was given; it says nothing about the content.</summary>
    public string FileName { get; private set; } = "";

    /// <summary>What the content was recognised as.</summary>
    public PaperType Type { get; private set; }

    /// <summary>Size of the file in bytes.</summary>
    public long Bytes { get; private set; }

    /// <summary>SHA-256 of the file, in hexadecimal; the file is kept under it.</summary>
    public string Sha256 { get; private set; } = "";

    /// <summary>What somebody noted about it; empty when nothing.</summary>
    public string Remark { get; private set; } = "";

    /// <summary>The act that kept it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that kept it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that set it aside, with the reason; null while it stands.</summary>
    public long? SetAsideActId { get; private set; }

    /// <summary>The act that set it aside, with the reason; null while it stands.</summary>
    public Act? SetAsideAct { get; private set; }

    /// <summary>Renewed by every verb.</summary>
    public Guid Version { get; private set; }

    /// <summary>A file as it was read.</summary>
    /// <param name="FileName">Its name as it was given.</param>
    /// <param name="Type">What its content is.</param>
    /// <param name="Bytes">Its size in bytes.</param>
    /// <param name="Sha256">SHA-256 in hexadecimal.</param>
    public sealed record File(string FileName, PaperType Type, long Bytes, string Sha256);

    /// <summary>Keeps a paper with a batch.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="file">The file.</param>
    /// <param name="remark">What is noted about it, at most 2,000 characters; needed for other papers.</param>
    /// <param name="act">The act.</param>
    public static Outcome<Paper> Of(Batch batch, PaperKind? kind, File file, string? remark, Act act)
    {
        var noted = remark?.Trim() ?? "";
        if (kind is not { } chosen || !Enum.IsDefined(chosen))
        {
            return new Refusal(RefusalKind.Invalid, "Choose what kind of paper it is.");
        }

        if (noted.Length > LongestRemark)
        {
            return new Refusal(RefusalKind.Invalid, "The remark has more than 2,000 characters. Shorten it.");
        }

        return chosen == PaperKind.Other && noted.Length == 0
            ? new Refusal(RefusalKind.Invalid, "Write in the remark what this paper is.")
            : new Paper
            {
                BatchId = batch.Id,
                Kind = chosen,
                FileName = NameOf(file.FileName),
                Type = file.Type,
                Bytes = file.Bytes,
                Sha256 = file.Sha256,
                Remark = noted,
                Act = act,
                Version = Guid.NewGuid(),
            };
    }

    /// <summary>Sets it aside: it stays, and is shown as withdrawn with the reason of the act.</summary>
    /// <param name="act">The act: who, when and why.</param>
    public Refusal? SetAside(Act act)
    {
        if (SetAsideActId is not null || SetAsideAct is not null)
        {
            return new(RefusalKind.Conflict, $"{FileName} is set aside already. Nothing was changed.");
        }

        if (act.Reason is null)
        {
            return new(RefusalKind.Invalid, "Write why the paper is set aside.");
        }

        SetAsideAct = act;
        Version = Guid.NewGuid();
        return null;
    }

    // Some browsers send the sender's whole path; control characters have no place in a name.
    private static string NameOf(string given)
    {
        var last = given[(given.LastIndexOfAny(['/', '\\']) + 1)..];
        var name = string.Concat(last.Where(c => !char.IsControl(c))).Trim();
        name = name.Length > LongestName ? name[^LongestName..] : name;
        // A cut between the two halves of one character would leave a text that a database refuses.
        name = name.Length > 0 && char.IsLowSurrogate(name[0]) ? name[1..] : name;
        return name.Length == 0 ? "paper" : Texts.Folding.Whole(name);
    }
}
