using Accession.Core.FreezerLoads;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PartMapping
    : IEntityTypeConfiguration<Part>, IEntityTypeConfiguration<CustodyEntry>, IEntityTypeConfiguration<StepEntry>,
        IEntityTypeConfiguration<ClearanceEntry>, IEntityTypeConfiguration<PlaceEntry>, IEntityTypeConfiguration<Place>
{
    public void Configure(EntityTypeBuilder<Part> part)
    {
        part.ToTable("part");
        part.Property(p => p.Code).HasMaxLength(50);
        part.HasIndex(p => new { p.Code, p.Repeat }).IsUnique();
        part.Property(p => p.Holder).HasMaxLength(200);
        part.HasMany(p => p.Custody).WithOne().HasForeignKey(c => c.PartId);
        part.HasMany(p => p.Steps).WithOne().HasForeignKey(s => s.PartId);
        part.Navigation(p => p.Custody).AutoInclude();
        part.Navigation(p => p.Steps).AutoInclude();
        part.HasMany(p => p.Clearances).WithOne().HasForeignKey(c => c.PartId);
        part.HasMany(p => p.Places).WithOne().HasForeignKey(e => e.PartId);
        part.Navigation(p => p.Clearances).AutoInclude();
        part.Navigation(p => p.Places).AutoInclude();
        part.Property(p => p.Version).IsConcurrencyToken();
        // Plan, parcel, load and place have no foreign key: SQLite would have to build the whole table anew for it,
        // outside a transaction. Verifying looks for them.
        part.HasIndex(p => new { p.NextStep, p.Id }).HasFilter("next_step IS NOT NULL");
        part.HasIndex(p => p.ParcelId).HasFilter("parcel_id IS NOT NULL");
        part.HasIndex(p => p.LoadId).HasFilter("load_id IS NOT NULL");
        part.HasIndex(p => p.PlaceId).HasFilter("place_id IS NOT NULL");
        // Who holds what is asked of all sheets; nearly all are here.
        part.HasIndex(p => new { p.Holder, p.SpecimenId });
        part.Ignore(p => p.IsCleared);
    }

    public void Configure(EntityTypeBuilder<CustodyEntry> custody)
    {
        custody.ToTable("custody_entry");
        custody.Property(c => c.Holder).HasMaxLength(200);
        custody.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
    }

    public void Configure(EntityTypeBuilder<StepEntry> step)
    {
        step.ToTable("step_entry");
        step.HasOne(s => s.Act).WithMany().HasForeignKey(s => s.ActId);
    }

    public void Configure(EntityTypeBuilder<ClearanceEntry> clearance)
    {
        clearance.ToTable("clearance_entry");
        clearance.Property(c => c.By).HasColumnName("ClearedBy");
        clearance.Property(c => c.At).HasColumnName("ClearedAt");
        clearance.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
        clearance.HasOne<FreezerLoad>().WithMany().HasForeignKey(c => c.LoadId);
        clearance.HasOne<HouseRule>().WithMany().HasForeignKey(c => c.HouseRuleId);
        clearance.HasOne<Parcel>().WithMany().HasForeignKey(c => c.ParcelId);
    }

    public void Configure(EntityTypeBuilder<PlaceEntry> entry)
    {
        entry.ToTable("place_entry");
        entry.HasOne<Place>().WithMany().HasForeignKey(e => e.PlaceId);
        entry.HasOne(e => e.Act).WithMany().HasForeignKey(e => e.ActId);
    }

    public void Configure(EntityTypeBuilder<Place> place)
    {
        place.ToTable("place");
        place.Property(p => p.Name).HasMaxLength(Place.LongestName);
        place.HasIndex(p => p.Name).IsUnique();
        place.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
    }
}
