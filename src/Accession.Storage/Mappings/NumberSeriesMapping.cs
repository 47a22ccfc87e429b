using Accession.Core.Numbers;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class NumberSeriesMapping
    : IEntityTypeConfiguration<NumberSeries>, IEntityTypeConfiguration<SeriesEntry>,
        IEntityTypeConfiguration<ReadyNumber>, IEntityTypeConfiguration<Roll>
{
    public void Configure(EntityTypeBuilder<NumberSeries> series)
    {
        series.ToTable("number_series");
        series.Property(s => s.Name).HasMaxLength(100);
        series.Property(s => s.PatternText).HasColumnName("Pattern").HasMaxLength(40);
        series.Ignore(s => s.Pattern);
        series.Ignore(s => s.IsClosed);
        series.Property(s => s.ClosedBecause).HasMaxLength(200);
        series.HasIndex(s => s.Name).IsUnique();
        series.HasIndex(s => s.PatternText).IsUnique();
    }

    public void Configure(EntityTypeBuilder<SeriesEntry> entry)
    {
        entry.ToTable("series_entry");
        entry.HasOne<NumberSeries>().WithMany().HasForeignKey(e => e.SeriesId);
        entry.Property(e => e.PaperHighest).HasMaxLength(40);
        entry.HasOne(e => e.Act).WithMany().HasForeignKey(e => e.ActId);
    }

    public void Configure(EntityTypeBuilder<ReadyNumber> ready)
    {
        ready.ToTable("ready_number");
        ready.HasKey(r => new { r.SeriesId, r.Number });
        ready.HasOne<NumberSeries>().WithMany().HasForeignKey(r => r.SeriesId);
        ready.Property(r => r.Written).HasMaxLength(40);
    }

    public void Configure(EntityTypeBuilder<Roll> roll)
    {
        roll.ToTable("roll");
        roll.Property(r => r.Name).HasMaxLength(100);
        roll.Property(r => r.First).HasColumnName("FirstNumber");
        roll.Property(r => r.Last).HasColumnName("LastNumber");
        roll.HasOne(r => r.Series).WithMany().HasForeignKey(r => r.SeriesId);
        roll.HasOne(r => r.Act).WithMany().HasForeignKey(r => r.ActId);
        roll.HasIndex(r => r.Name).IsUnique();
    }
}
