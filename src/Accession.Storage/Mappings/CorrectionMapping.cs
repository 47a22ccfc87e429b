using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class CorrectionMapping
    : IEntityTypeConfiguration<Correction>, IEntityTypeConfiguration<ExactCorrection>
{
    public void Configure(EntityTypeBuilder<Correction> correction)
    {
        correction.ToTable("correction");
        correction.HasOne<Gathering>().WithMany().HasForeignKey(c => c.GatheringId);
        correction.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
        correction.HasOne(c => c.Exact).WithOne(e => e.Correction)
            .HasForeignKey<ExactCorrection>(e => e.CorrectionId);
        correction.HasIndex(c => c.TakesBackActId);
    }

    public void Configure(EntityTypeBuilder<ExactCorrection> exact)
    {
        exact.ToTable("exact_correction");
        exact.HasKey(e => e.CorrectionId);
        exact.Property(e => e.Before);
        exact.Property(e => e.After);
    }
}
