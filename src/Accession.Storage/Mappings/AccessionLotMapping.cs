using Accession.Core.Accessions;
using Accession.Core.Batches;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class AccessionLotMapping : IEntityTypeConfiguration<AccessionLot>
{
    public void Configure(EntityTypeBuilder<AccessionLot> lot)
    {
        lot.ToTable("accession");
        lot.Property(l => l.Number).HasMaxLength(40);
        lot.HasIndex(l => l.Number).IsUnique();
        lot.HasOne<Batch>().WithMany().HasForeignKey(l => l.BatchId);
        lot.HasIndex(l => l.BatchId).IsUnique();
        lot.HasOne(l => l.Act).WithMany().HasForeignKey(l => l.ActId);
        lot.Property(l => l.Version).IsConcurrencyToken();
    }
}
