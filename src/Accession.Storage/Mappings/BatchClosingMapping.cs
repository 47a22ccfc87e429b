using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class BatchClosingMapping
    : IEntityTypeConfiguration<BatchClosing>, IEntityTypeConfiguration<CheckedSheets>
{
    public void Configure(EntityTypeBuilder<BatchClosing> closing)
    {
        closing.ToTable("batch_closing");
        closing.HasOne<Batch>().WithMany().HasForeignKey(c => c.BatchId);
        closing.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
        closing.HasMany(c => c.Sheets).WithOne().HasForeignKey(s => s.ClosingId);
    }

    public void Configure(EntityTypeBuilder<CheckedSheets> sheets)
    {
        sheets.ToTable("checked_sheets");
        sheets.HasOne<Gathering>().WithMany().HasForeignKey(s => s.GatheringId);
    }
}
