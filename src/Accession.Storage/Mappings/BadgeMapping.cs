using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class BadgeMapping : IEntityTypeConfiguration<Badge>, IEntityTypeConfiguration<BenchShift>
{
    public void Configure(EntityTypeBuilder<Badge> badge)
    {
        badge.ToTable("badge");
        badge.Property(b => b.CodeHash).HasMaxLength(64);
        badge.HasIndex(b => b.CodeHash).IsUnique();
        badge.HasOne<Account>().WithMany().HasForeignKey(b => b.AccountId).OnDelete(DeleteBehavior.Cascade);
        badge.HasOne(b => b.Act).WithMany().HasForeignKey(b => b.ActId).OnDelete(DeleteBehavior.Restrict);
        badge.HasOne(b => b.WithdrawnAct).WithMany().HasForeignKey(b => b.WithdrawnActId)
            .OnDelete(DeleteBehavior.Restrict);
    }

    public void Configure(EntityTypeBuilder<BenchShift> shift)
    {
        shift.ToTable("bench_shift");
        shift.Property(s => s.Key).HasMaxLength(80);
        shift.Property(s => s.SignedInId).HasMaxLength(64);
        shift.HasIndex(s => new { s.SignedInId, s.Key }).IsUnique();
        shift.HasOne(s => s.Badge).WithMany().HasForeignKey(s => s.BadgeId);
        shift.HasOne(s => s.Act).WithMany().HasForeignKey(s => s.ActId).OnDelete(DeleteBehavior.Restrict);
    }
}
