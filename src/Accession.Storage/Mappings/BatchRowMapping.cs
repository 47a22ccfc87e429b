using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class BatchRowMapping : IEntityTypeConfiguration<BatchRow>, IEntityTypeConfiguration<RowProblem>
{
    public void Configure(EntityTypeBuilder<BatchRow> row)
    {
        row.ToTable("batch_row");
        row.HasOne<Batch>().WithMany().HasForeignKey(r => r.BatchId);
        row.HasOne<ReceivedList>().WithMany().HasForeignKey(r => r.FirstListId);
        row.HasOne<ReceivedList>().WithMany().HasForeignKey(r => r.LastListId);
        row.HasOne<ReceivedList>().WithMany().HasForeignKey(r => r.WithdrawnInListId);
        row.HasOne<BatchRow>().WithMany().HasForeignKey(r => r.SupersededById);
        row.HasOne<Gathering>().WithMany().HasForeignKey(r => r.GatheringId);
        row.HasOne<Act>().WithMany().HasForeignKey(r => r.TakenAsWrittenActId);
        row.Property(r => r.Identity).HasMaxLength(32);
        row.Property(r => r.PairKey).HasMaxLength(200);
        row.Property(r => r.CatalogNumber).HasMaxLength(BorneNumber.Longest);
        row.HasIndex(r => new { r.BatchId, r.Identity, r.Occurrence }).IsUnique();
        row.HasIndex(r => new { r.BatchId, r.PairKey });
        row.HasIndex(r => new { r.BatchId, r.Line });
        // Most rows were never corrected. Statistics that counted those would tell SQLite that all rows share one key,
        // and every question which row a row replaced would go through the whole table.
        row.HasIndex(r => r.SupersededById).HasFilter("superseded_by_id IS NOT NULL");
    }

    public void Configure(EntityTypeBuilder<RowProblem> problem)
    {
        problem.ToTable("row_problem");
        problem.HasOne<Batch>().WithMany().HasForeignKey(p => p.BatchId);
        problem.HasOne<ReceivedList>().WithMany().HasForeignKey(p => p.ListId);
        problem.HasOne<BatchRow>().WithMany().HasForeignKey(p => p.RowId);
        problem.Property(p => p.ColumnName).HasMaxLength(201);
        problem.Property(p => p.Text).HasMaxLength(600);
    }
}
