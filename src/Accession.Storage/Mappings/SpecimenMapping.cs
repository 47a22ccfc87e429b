using Accession.Core.Determinations;
using Accession.Core.Numbers;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class SpecimenMapping
    : IEntityTypeConfiguration<Specimen>, IEntityTypeConfiguration<Determination>, IEntityTypeConfiguration<NameChoice>,
    IEntityTypeConfiguration<FiledAsEntry>
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
        specimen.HasMany(s => s.Choices).WithOne().HasForeignKey(c => c.SpecimenId);
        specimen.HasMany(s => s.Filings).WithOne().HasForeignKey(f => f.SpecimenId);
        specimen.Property(s => s.FindText).HasDefaultValue("");
        specimen.HasIndex(s => s.Id, "ix_specimen_without_words").HasFilter("find_text = ''");
        specimen.Property(s => s.FiledAs).HasMaxLength(Opinion.Longest).HasDefaultValue("");
        // Few sheets lie under a name that no longer counts.
        specimen.HasIndex(s => s.Id, "ix_specimen_to_refile").HasFilter("filed_as <> '' AND filed_as <> current_name");
        specimen.Ignore(s => s.IsToRefile);
        specimen.Property(s => s.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<Determination> determination)
    {
        determination.ToTable("determination");
        determination.HasOne(d => d.Act).WithMany().HasForeignKey(d => d.ActId);
        determination.Property(d => d.Kind).HasDefaultValue(DeterminationKind.Listed);
        determination.Property(d => d.SeenOn).HasDefaultValue(SeenOn.Unknown);
        determination.Property(d => d.Reason).HasMaxLength(Opinion.LongestReason).HasDefaultValue("");
        determination.HasIndex(d => d.Id).HasFilter("waits").HasDatabaseName("ix_determination_waits");
    }

    public void Configure(EntityTypeBuilder<NameChoice> choice)
    {
        choice.ToTable("name_choice");
        choice.HasOne(c => c.Act).WithMany().HasForeignKey(c => c.ActId);
        choice.HasOne<Determination>().WithMany().HasForeignKey(c => c.DeterminationId);
    }

    public void Configure(EntityTypeBuilder<FiledAsEntry> filing)
    {
        filing.ToTable("filed_as_entry");
        filing.Property(f => f.Name).HasMaxLength(Opinion.Longest);
        filing.HasOne(f => f.Act).WithMany().HasForeignKey(f => f.ActId);
    }
}
