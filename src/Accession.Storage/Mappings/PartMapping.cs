using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PartMapping
    : IEntityTypeConfiguration<Part>, IEntityTypeConfiguration<CustodyEntry>, IEntityTypeConfiguration<StepEntry>
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
        part.Property(p => p.Version).IsConcurrencyToken();
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
}
