using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class GatheringMapping
    : IEntityTypeConfiguration<Gathering>, IEntityTypeConfiguration<LocalityProtection>
{
    public void Configure(EntityTypeBuilder<Gathering> gathering)
    {
        gathering.ToTable("gathering");
        gathering.HasOne<AccessionLot>().WithMany().HasForeignKey(g => g.AccessionId);
        gathering.HasOne<BatchRow>().WithMany().HasForeignKey(g => g.BatchRowId);
        gathering.HasOne<Act>().WithMany().HasForeignKey(g => g.ActId);
        gathering.HasIndex(g => g.BatchRowId).IsUnique();
        // No foreign key: SQLite would build the whole table anew for it, outside a transaction.
        // Counted apart from the many that are no duplicates, or a database takes the index to be worth nothing.
        gathering.HasIndex(g => g.DuplicateOfId).HasFilter("duplicate_of_id IS NOT NULL");
        // Each list that comes asks whether any gathering has still to be signed.
        gathering.HasIndex(g => g.SignatureVersion);
        gathering.Property(g => g.CountyKey).HasMaxLength(CountyName.LongestKey);
        gathering.HasIndex(g => g.CountyKey);
        gathering.ComplexProperty(g => g.Notes, Unprefixed);
        gathering.ComplexProperty(g => g.Place, Unprefixed);
        gathering.HasMany(g => g.Protections).WithOne().HasForeignKey(p => p.GatheringId);
        gathering.Navigation(g => g.Protections).AutoInclude();
        gathering.Ignore(g => g.Label);
        gathering.Property(g => g.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<LocalityProtection> protection)
    {
        protection.ToTable("locality_protection");
        protection.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
    }

    // The parts of a gathering are records in the code and plain columns in the table.
    private static void Unprefixed<T>(ComplexPropertyBuilder<T> part)
        where T : notnull
    {
        foreach (var property in part.Metadata.ComplexType.GetProperties())
        {
            part.Property(property.ClrType, property.Name).HasColumnName(property.Name);
        }
    }
}
