using Accession.Core.Determinations;
using Accession.Core.Numbers;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class SpecimenMapping : IEntityTypeConfiguration<Specimen>, IEntityTypeConfiguration<Determination>
{
    public void Configure(EntityTypeBuilder<Specimen> specimen)
    {
        specimen.ToTable("specimen");
        specimen.Property(s => s.CatalogNumber).HasMaxLength(BorneNumber.Longest);
        specimen.HasIndex(s => new { s.CatalogNumber, s.Repeat }).IsUnique();
        specimen.HasOne<NumberSeries>().WithMany().HasForeignKey(s => s.SeriesId);
        specimen.HasIndex(s => new { s.SeriesId, s.Number, s.Repeat }).IsUnique();
        // Few sheets bear a number that another bears too.
        specimen.HasIndex(s => new { s.CatalogNumber, s.Id }).HasFilter("repeat > 0")
            .HasDatabaseName("ix_specimen_repeated");
        specimen.Property(s => s.OccurrenceId).HasMaxLength(LastingIdentifier.Longest);
        specimen.HasIndex(s => s.OccurrenceId).IsUnique();
        specimen.HasOne(s => s.Gathering).WithMany().HasForeignKey(s => s.GatheringId);
        specimen.HasOne(s => s.Act).WithMany().HasForeignKey(s => s.ActId);
        specimen.HasMany(s => s.Parts).WithOne().HasForeignKey(p => p.SpecimenId);
        specimen.HasMany(s => s.Determinations).WithOne().HasForeignKey(d => d.SpecimenId);
        specimen.Navigation(s => s.Parts).AutoInclude();
        specimen.Navigation(s => s.Determinations).AutoInclude();
        specimen.Property(s => s.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<Determination> determination)
    {
        determination.ToTable("determination");
        determination.HasOne(d => d.Act).WithMany().HasForeignKey(d => d.ActId);
    }
}
