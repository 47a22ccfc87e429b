using Accession.Core.Batches;
using Accession.Core.FreezerLoads;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class ParcelMapping
    : IEntityTypeConfiguration<Parcel>, IEntityTypeConfiguration<ParcelClearance>,
        IEntityTypeConfiguration<ParcelOfBatch>, IEntityTypeConfiguration<TagCounter>,
        IEntityTypeConfiguration<TagsLost>, IEntityTypeConfiguration<ParcelPlaceEntry>
{
    public void Configure(EntityTypeBuilder<Parcel> parcel)
    {
        parcel.ToTable("parcel");
        parcel.Property(p => p.Tag).HasMaxLength(20);
        parcel.HasIndex(p => p.Tag).IsUnique();
        parcel.HasIndex(p => new { p.Year, p.Number }).IsUnique();
        parcel.HasOne<Source>().WithMany().HasForeignKey(p => p.SourceId);
        parcel.Property(p => p.FromWhom).HasMaxLength(ParcelDetails.LongestName);
        parcel.Property(p => p.Carrier).HasMaxLength(ParcelDetails.LongestName);
        parcel.Property(p => p.Standing).HasMaxLength(ParcelDetails.LongestName);
        parcel.Property(p => p.Condition).HasMaxLength(ParcelDetails.LongestCondition);
        parcel.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
        parcel.HasOne<FreezerLoad>().WithMany().HasForeignKey(p => p.LoadId);
        parcel.HasMany(p => p.Clearances).WithOne().HasForeignKey(c => c.ParcelId);
        parcel.Navigation(p => p.Clearances).AutoInclude();
        // The place has no foreign key: SQLite would have to build the whole table anew for it. Verifying looks for it.
        parcel.HasMany(p => p.Places).WithOne().HasForeignKey(e => e.ParcelId);
        parcel.Navigation(p => p.Places).AutoInclude();
        parcel.HasIndex(p => new { p.ClearedAt, p.Id });
        parcel.Property(p => p.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<ParcelClearance> clearance)
    {
        clearance.ToTable("parcel_clearance");
        clearance.Property(c => c.By).HasColumnName("ClearedBy");
        clearance.Property(c => c.At).HasColumnName("ClearedAt");
        clearance.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
        clearance.HasOne<FreezerLoad>().WithMany().HasForeignKey(c => c.LoadId);
        clearance.HasOne<HouseRule>().WithMany().HasForeignKey(c => c.HouseRuleId);
    }

    public void Configure(EntityTypeBuilder<ParcelOfBatch> tie)
    {
        tie.ToTable("parcel_of_batch");
        tie.HasOne<Batch>().WithMany().HasForeignKey(t => t.BatchId);
        tie.HasOne<Parcel>().WithMany().HasForeignKey(t => t.ParcelId);
        tie.HasOne(t => t.Act).WithMany().HasForeignKey(t => t.ActId);
        tie.HasOne(t => t.UntiedAct).WithMany().HasForeignKey(t => t.UntiedActId);
        tie.HasIndex(t => new { t.BatchId, t.ParcelId }).IsUnique().HasFilter("untied_act_id IS NULL");
    }

    public void Configure(EntityTypeBuilder<ParcelPlaceEntry> entry)
    {
        entry.ToTable("parcel_place_entry");
        entry.HasOne<Place>().WithMany().HasForeignKey(e => e.PlaceId);
        entry.HasOne(e => e.Act).WithMany().HasForeignKey(e => e.ActId);
    }

    public void Configure(EntityTypeBuilder<TagsLost> lost)
    {
        lost.ToTable("tags_lost");
        lost.HasOne(t => t.Act).WithMany().HasForeignKey(t => t.ActId);
    }

    public void Configure(EntityTypeBuilder<TagCounter> counter)
    {
        counter.ToTable("tag_counter");
        counter.HasKey(c => c.Kind);
        counter.HasData(
            new { Kind = TagKind.Parcel, Year = 0, Next = 1 },
            new { Kind = TagKind.Load, Year = 0, Next = 1 });
    }
}
