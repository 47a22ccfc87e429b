using Accession.Core.Numbers;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class VoidedNumbersMapping
    : IEntityTypeConfiguration<VoidedNumbers>, IEntityTypeConfiguration<VoidTakenBack>
{
    public void Configure(EntityTypeBuilder<VoidedNumbers> numbers)
    {
        numbers.ToTable("voided_numbers");
        numbers.Property(v => v.First).HasColumnName("FirstNumber");
        numbers.Property(v => v.Last).HasColumnName("LastNumber");
        numbers.HasOne<Roll>().WithMany().HasForeignKey(v => v.RollId);
        numbers.HasOne(v => v.Act).WithMany().HasForeignKey(v => v.ActId);
        numbers.HasIndex(v => new { v.SeriesId, v.First });
    }

    public void Configure(EntityTypeBuilder<VoidTakenBack> back)
    {
        back.ToTable("void_taken_back");
        back.HasOne<VoidedNumbers>().WithMany().HasForeignKey(b => b.VoidId);
        back.HasOne(b => b.Act).WithMany().HasForeignKey(b => b.ActId);
        back.HasIndex(b => b.VoidId).IsUnique();
    }
}
