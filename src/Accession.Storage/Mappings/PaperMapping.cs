using Accession.Core.Accessions;
using Accession.Core.Batches;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PaperMapping : IEntityTypeConfiguration<Paper>, IEntityTypeConfiguration<Permit>
{
    public void Configure(EntityTypeBuilder<Paper> paper)
    {
        paper.ToTable("paper");
        paper.HasOne<Batch>().WithMany().HasForeignKey(p => p.BatchId);
        paper.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
        paper.HasOne(p => p.SetAsideAct).WithMany().HasForeignKey(p => p.SetAsideActId);
        paper.Property(p => p.FileName).HasMaxLength(Paper.LongestName);
        paper.Property(p => p.Remark).HasMaxLength(Paper.LongestRemark);
        paper.Property(p => p.Sha256).HasMaxLength(64);
        paper.Property(p => p.Version).IsConcurrencyToken();
        // Two who keep the same file with one batch at once: one of them is told.
        paper.HasIndex(p => new { p.BatchId, p.Sha256 }).IsUnique().HasFilter("set_aside_act_id IS NULL");
    }

    public void Configure(EntityTypeBuilder<Permit> permit)
    {
        permit.ToTable("permit");
        permit.HasOne<Batch>().WithMany().HasForeignKey(p => p.BatchId);
        permit.HasOne<Paper>().WithMany().HasForeignKey(p => p.PaperId);
        permit.HasOne<Permit>().WithMany().HasForeignKey(p => p.ReplacesId);
        permit.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
        permit.HasOne(p => p.EndedAct).WithMany().HasForeignKey(p => p.EndedActId);
        permit.Property(p => p.Number).HasMaxLength(PermitTerms.LongestNumber);
        permit.Property(p => p.Issuer).HasMaxLength(PermitTerms.LongestName);
        permit.Property(p => p.Country).HasMaxLength(PermitTerms.LongestName);
        permit.Property(p => p.StateProvince).HasMaxLength(PermitTerms.LongestName);
        permit.Property(p => p.Version).IsConcurrencyToken();
        permit.Ignore(p => p.Terms);
        permit.Ignore(p => p.Name);
        permit.HasIndex(p => p.ReplacesId).IsUnique();
    }
}
