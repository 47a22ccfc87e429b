using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Finding;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>Which part was scanned, in whatever spelling, with its plan; or why nobody knows.</summary>
public sealed class PartInHand(
    AccessionDb db, TypedNumbers typed, NumbersOnRolls rolls, InstitutionClock institution)
{
    // More are not read out to anybody at a bench.
    private const int MostParts = 8;

    /// <summary>A part with the plan it follows and what stands on its label.</summary>
    public sealed record Held(Part Part, StepPlan? Plan, Specimen Specimen)
    {
        /// <summary>What is told of it.</summary>
        /// <param name="state">What was done, in one or two words.</param>
        /// <param name="said">What became of it, behind its code.</param>
        /// <param name="isTakenBack">Whether something was taken back.</param>
        public BenchDone Tell(string state, string said, bool isTakenBack = false) => new(
            Part.Code, Specimen.CatalogNumber, Specimen.Repeat,
            $"{Specimen.Gathering.Notes.RecordedBy} {Specimen.Gathering.Notes.RecordNumber}".Trim(),
            Specimen.CurrentName, state, said, isTakenBack, Part.NextStep);

        /// <summary>The same, when something was taken back.</summary>
        public BenchDone TellTakenBack() => Tell("Taken back", "", isTakenBack: true);
    }

    public async Task<Outcome<Held>> FindAsync(string? scanned, CancellationToken cancellation)
    {
        var code = scanned?.Trim() ?? "";
        if (code.Length == 0)
        {
            return new Refusal(RefusalKind.Invalid, "Scan the barcode of the sheet.");
        }

        var meant = await typed.FindAsync(code, db.Specimens, cancellation);
        var number = meant.Certain ?? (meant.Possible is [var only] ? only : null);
        var parts = await db.Parts
            .Where(p => p.Code == code || (number != null && db.Specimens.Any(
                s => s.Id == p.SpecimenId && s.CatalogNumber == number)))
            .OrderBy(p => p.Id).Take(MostParts).Select(p => new { p.Id, p.Code, p.SpecimenId })
            .ToListAsync(cancellation);
        if (parts.Where(p => p.Code == code).ToList() is [var exact])
        {
            parts = [exact];
        }

        return parts.Count switch
        {
            0 => await WhyNoSheetAsync(code, cancellation),
            1 => await HeldAsync(parts[0].Id, parts[0].SpecimenId, cancellation),
            _ => new Refusal(RefusalKind.Conflict, parts.Select(p => p.SpecimenId).Distinct().Count() > 1
                ? $"{number ?? code} is on more than one sheet, so nobody knows which is in your hand. "
                    + $"See {SpecimenAddress.Of(number ?? code)}."
                : $"{number ?? code} is in {parts.Count} parts: {string.Join(", ", parts.Select(p => p.Code))}. "
                    + "Scan the code of the one in your hand."),
        };
    }

    private async Task<Refusal> WhyNoSheetAsync(string code, CancellationToken cancellation)
    {
        var tag = Parcel.TagIn(code);
        if (await db.Parcels.AnyAsync(p => p.Tag == tag, cancellation))
        {
            return new(RefusalKind.Conflict,
                $"{tag} is a parcel. It goes in a freezer: scan the freezer first, then the parcel.");
        }

        var shown = code.Length <= 60 ? code : code[..60] + "…";
        return await rolls.UnusedAsync(code, cancellation) switch
        {
            { Void: { } isVoid } barcode => new(RefusalKind.Conflict,
                $"{barcode.Written} is void since {institution.ShowDay(isVoid.Since)}: {isVoid.Reason}. No sheet of "
                + "the register bears it. Set this one aside to be numbered again with another barcode; if the void "
                + "was a mistake, a curator takes it back, under Every number."),
            { } barcode => new(RefusalKind.NotFound,
                $"{barcode.Written} is a barcode of {barcode.Roll} that is on no sheet of the register yet. Set this "
                + "one aside to be numbered: it has to be scanned at the numbering bench first."),
            null => new(RefusalKind.NotFound,
                $"{shown} is on no sheet here. Look at the barcode, and set the sheet aside if it is another "
                + "herbarium's."),
        };
    }

    /// <summary>The part by its key.</summary>
    public async Task<Held> HeldAsync(long partId, long specimenId, CancellationToken cancellation)
    {
        var part = await db.Parts.Include(p => p.Places).ThenInclude(entry => entry.Act).AsSplitQuery()
            .SingleAsync(p => p.Id == partId, cancellation);
        var plan = part.PlanId is { } id
            ? await db.StepPlans.AsNoTracking().SingleAsync(p => p.Id == id, cancellation)
            : null;
        var specimen = await db.Specimens.AsNoTracking().IgnoreAutoIncludes().Include(s => s.Gathering)
            .SingleAsync(s => s.Id == specimenId, cancellation);
        return new(part, plan, specimen);
    }
}
