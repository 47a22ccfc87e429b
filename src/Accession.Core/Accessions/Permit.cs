using Accession.Core.Batches;
using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>
/// A permit of a batch, as data. An entry is never edited: a correction is a new entry that replaces it, and one that
/// is set aside stays with the reason.
/// </summary>
public sealed class Permit
{
    private Permit()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch it belongs to.</summary>
    public long BatchId { get; private set; }

    /// <summary>What it is.</summary>
    public PermitKind Kind { get; private set; }

    /// <summary>Its number; empty when it has none.</summary>
    public string Number { get; private set; } = "";

    /// <summary>Who issued it.</summary>
    public string Issuer { get; private set; } = "";

    /// <summary>The first day on which it holds; null when it names none.</summary>
    public DateOnly? ValidFrom { get; private set; }

    /// <summary>The last day on which it holds; null when it names none.</summary>
    public DateOnly? ValidUntil { get; private set; }

    /// <summary>The country; empty for any.</summary>
    public string Country { get; private set; } = "";

    /// <summary>State or province; empty for any.</summary>
    public string StateProvince { get; private set; } = "";

    /// <summary>The counties, each on a line; empty for any.</summary>
    public string Counties { get; private set; } = "";

    /// <summary>Families, genera or species, each on a line; empty for any.</summary>
    public string Taxa { get; private set; } = "";

    /// <summary>What else it says.</summary>
    public string Conditions { get; private set; } = "";

    /// <summary>The paper it stands on; null when that is not here.</summary>
    public long? PaperId { get; private set; }

    /// <summary>The entry that this one corrects; null for a new permit.</summary>
    public long? ReplacesId { get; private set; }

    /// <summary>The act that wrote it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that wrote it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that corrected it or set it aside, with the reason; null while it holds.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that corrected it or set it aside, with the reason; null while it holds.</summary>
    public Act? EndedAct { get; private set; }

    /// <summary>Renewed by every verb.</summary>
    public Guid Version { get; private set; }

    /// <summary>What it says.</summary>
    public PermitTerms Terms => new(
        Kind, Number, Issuer, ValidFrom, ValidUntil, Country, StateProvince, PermitTerms.Entries(Counties),
        PermitTerms.Entries(Taxa), Conditions, PaperId);

    /// <summary>What people call it.</summary>
    public string Name => PermitWords.NameOf(Terms);

    /// <summary>Writes a permit down.</summary>
    /// <param name="batch">The batch it belongs to; its rows are compared with it.</param>
    /// <param name="terms">What it says.</param>
    /// <param name="act">The act.</param>
    public static Outcome<Permit> Of(Batch batch, PermitTerms terms, Act act)
    {
        if (terms.WhyNot() is { } refusal)
        {
            return refusal;
        }

        batch.ChangeRows();
        return new Permit
        {
            BatchId = batch.Id,
            Kind = terms.Kind!.Value,
            Number = terms.Number,
            Issuer = terms.Issuer,
            ValidFrom = terms.From,
            ValidUntil = terms.Until,
            Country = terms.Country,
            StateProvince = terms.StateProvince,
            Counties = string.Join('\n', terms.Counties),
            Taxa = string.Join('\n', terms.Taxa),
            Conditions = terms.Conditions,
            PaperId = terms.PaperId,
            Act = act,
            Version = Guid.NewGuid(),
        };
    }

    /// <summary>Corrects it: a new entry stands in its place, and this one is kept.</summary>
    /// <param name="batch">The batch it belongs to.</param>
    /// <param name="terms">What it says rightly.</param>
    /// <param name="act">The act.</param>
    public Outcome<Permit> Correct(Batch batch, PermitTerms terms, Act act)
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        var corrected = Of(batch, terms, act);
        if (!corrected.IsRefused)
        {
            corrected.Value.ReplacesId = Id;
            EndedAct = act;
            Version = Guid.NewGuid();
        }

        return corrected;
    }

    /// <summary>Sets it aside; it stays, with the reason of the act.</summary>
    /// <param name="batch">The batch it belongs to.</param>
    /// <param name="act">The act: who, when and why.</param>
    public Refusal? SetAside(Batch batch, Act act)
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        if (act.Reason is null)
        {
            return new(RefusalKind.Invalid, "Write why the permit is set aside.");
        }

        EndedAct = act;
        Version = Guid.NewGuid();
        batch.ChangeRows();
        return null;
    }

    private Refusal? WhyNotNow() => EndedActId is null && EndedAct is null
        ? null
        : new(RefusalKind.Conflict, $"{Name} was corrected or set aside already. Look at the permits again.");
}
