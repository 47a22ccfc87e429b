using Accession.Core.Batches;
using Accession.Core.FreezerLoads;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class FreezerLoadMapping
    : IEntityTypeConfiguration<FreezerLoad>, IEntityTypeConfiguration<LoadEntry>, IEntityTypeConfiguration<LoadItem>
{
    public void Configure(EntityTypeBuilder<FreezerLoad> load)
    {
        load.ToTable("freezer_load");
        load.HasIndex(l => l.Number).IsUnique();
        load.HasOne(l => l.Freezer).WithMany().HasForeignKey(l => l.FreezerId);
        load.HasOne(l => l.Regime).WithMany().HasForeignKey(l => l.RegimeId);
        load.Navigation(l => l.Freezer).AutoInclude();
        load.Navigation(l => l.Regime).AutoInclude();
        load.HasOne<FreezerLoad>().WithMany().HasForeignKey(l => l.RepeatsId);
        load.HasIndex(l => l.RepeatsId).IsUnique();
        load.HasMany(l => l.Entries).WithOne().HasForeignKey(e => e.LoadId);
        load.Navigation(l => l.Entries).AutoInclude();
        load.HasIndex(l => new { l.Standing, l.Id });
        // Two lids cannot be closed on one freezer: the second load would be put in by opening it on the first.
        load.HasIndex(l => l.FreezerId).IsUnique().HasFilter("standing = 'Running'")
            .HasDatabaseName("ix_freezer_load_running");
        load.Property(l => l.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<LoadEntry> entry)
    {
        entry.ToTable("load_entry");
        entry.HasOne(e => e.Act).WithMany().HasForeignKey(e => e.ActId);
        entry.HasOne<HouseRule>().WithMany().HasForeignKey(e => e.HouseRuleId);
    }

    public void Configure(EntityTypeBuilder<LoadItem> item)
    {
        item.ToTable("load_item");
        item.HasOne<FreezerLoad>().WithMany().HasForeignKey(i => i.LoadId);
        item.HasOne<Parcel>().WithMany().HasForeignKey(i => i.ParcelId);
        item.HasOne<Part>().WithMany().HasForeignKey(i => i.PartId);
        item.HasOne<Batch>().WithMany().HasForeignKey(i => i.BatchId);
        item.HasOne(i => i.Act).WithMany().HasForeignKey(i => i.ActId);
        item.Property(i => i.Bundle).HasMaxLength(LoadItem.LongestBundle);
        item.HasIndex(i => new { i.LoadId, i.PartId }).IsUnique().HasFilter("taken_off_act_id IS NULL");
        // What was taken off never went in: only whoever asks for it sees it.
        item.HasQueryFilter(i => i.TakenOffActId == null);
    }
}
