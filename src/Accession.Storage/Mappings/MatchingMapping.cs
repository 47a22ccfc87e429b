using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class MatchingMapping :
    IEntityTypeConfiguration<GatheringKey>, IEntityTypeConfiguration<GatheringSignature>,
    IEntityTypeConfiguration<RowKey>, IEntityTypeConfiguration<RowSignature>, IEntityTypeConfiguration<RowRecord>
{
    public void Configure(EntityTypeBuilder<GatheringKey> key)
    {
        key.ToTable("gathering_key");
        key.HasKey(k => new { k.Key, k.Day, k.Detail, k.GatheringId });
        key.HasOne<Gathering>().WithMany().HasForeignKey(k => k.GatheringId);
    }

    public void Configure(EntityTypeBuilder<GatheringSignature> signature)
    {
        signature.ToTable("gathering_signature");
        signature.HasKey(s => s.GatheringId);
        signature.HasOne<Gathering>().WithOne().HasForeignKey<GatheringSignature>(s => s.GatheringId);
    }

    // Staged for one batch at a time and gone once a row is in the register: no foreign keys to look after.
    public void Configure(EntityTypeBuilder<RowKey> key)
    {
        key.ToTable("row_key");
        key.HasKey(k => new { k.BatchId, k.Key, k.Day, k.Detail, k.RowId });
        key.HasIndex(k => new { k.BatchId, k.Line });
        key.HasIndex(k => k.RowId);
    }

    public void Configure(EntityTypeBuilder<RowSignature> signature)
    {
        signature.ToTable("row_signature");
        signature.HasKey(s => s.RowId);
        signature.Property(s => s.RowId).ValueGeneratedNever();
    }

    public void Configure(EntityTypeBuilder<RowRecord> record)
    {
        record.ToTable("row_record");
        record.HasKey(r => new { r.RowId, r.GatheringId });
    }
}
