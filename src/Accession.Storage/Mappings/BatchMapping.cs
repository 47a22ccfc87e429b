using Accession.Core.Batches;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class BatchMapping
    : IEntityTypeConfiguration<Source>, IEntityTypeConfiguration<Batch>, IEntityTypeConfiguration<ReceivedList>
{
    public void Configure(EntityTypeBuilder<Source> source)
    {
        source.ToTable("source");
        source.Property(s => s.Name).HasMaxLength(200);
        source.Property(s => s.FoldedName).HasMaxLength(400);
        source.Property(s => s.CollectorAddress).HasMaxLength(Core.Letters.LetterAddress.Longest);
        source.HasIndex(s => s.FoldedName).IsUnique();
    }

    public void Configure(EntityTypeBuilder<Batch> batch)
    {
        batch.ToTable("batch");
        batch.HasOne(b => b.Source).WithMany().HasForeignKey(b => b.SourceId);
        batch.HasOne(b => b.Act).WithMany().HasForeignKey(b => b.ActId);
        batch.HasOne<Batch>().WithMany().HasForeignKey(b => b.JoinedToBatchId);
        batch.Property(b => b.Version).IsConcurrencyToken();
        // ResemblesBatchId and ClosedActId have no foreign key: SQLite would have to build the whole table anew for it,
        // outside a transaction. Batches are never deleted.
    }

    public void Configure(EntityTypeBuilder<ReceivedList> list)
    {
        list.ToTable("received_list");
        list.HasOne(l => l.Batch).WithMany(b => b.Lists).HasForeignKey(l => l.BatchId);
        list.HasOne(l => l.Act).WithMany().HasForeignKey(l => l.ActId);
        list.Property(l => l.FileName).HasMaxLength(300);
        list.Property(l => l.KeptAs).HasMaxLength(100);
        list.Property(l => l.Sha256).HasMaxLength(64);
        list.Property(l => l.Format).HasMaxLength(100);
        list.HasIndex(l => l.Sha256);
        list.ComplexProperty(l => l.Counts, counts =>
        {
            counts.Property(c => c.Rows).HasColumnName("Rows");
            counts.Property(c => c.Added).HasColumnName("Added");
            counts.Property(c => c.Changed).HasColumnName("Changed");
            counts.Property(c => c.Unchanged).HasColumnName("Unchanged");
            counts.Property(c => c.Withdrawn).HasColumnName("Withdrawn");
            counts.Property(c => c.LinesNotRead).HasColumnName("LinesNotRead");
        });
    }
}
