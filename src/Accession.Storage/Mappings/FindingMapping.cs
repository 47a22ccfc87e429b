using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class FindingMapping :
    IEntityTypeConfiguration<FoundMember>, IEntityTypeConfiguration<DecisionEntry>,
    IEntityTypeConfiguration<ToldApart>, IEntityTypeConfiguration<SetAside>
{
    public void Configure(EntityTypeBuilder<FoundMember> member)
    {
        member.ToTable("found_member");
        member.HasOne<BatchRow>().WithMany().HasForeignKey(m => m.RowId);
        member.HasOne<Gathering>().WithMany().HasForeignKey(m => m.GatheringId);
        member.HasOne<BatchRow>().WithMany().HasForeignKey(m => m.OtherRowId);
    }

    public void Configure(EntityTypeBuilder<DecisionEntry> entry)
    {
        entry.ToTable("decision_entry");
        entry.HasOne<BatchRow>().WithMany().HasForeignKey(e => e.RowId);
        entry.HasOne<Gathering>().WithMany().HasForeignKey(e => e.GatheringId);
        entry.HasOne<BatchRow>().WithMany().HasForeignKey(e => e.OtherRowId);
        entry.HasOne(e => e.Act).WithMany().HasForeignKey(e => e.ActId);
    }

    public void Configure(EntityTypeBuilder<ToldApart> apart)
    {
        apart.ToTable("told_apart");
        apart.HasOne<BatchRow>().WithMany().HasForeignKey(a => a.RowId);
        apart.HasOne<Gathering>().WithMany().HasForeignKey(a => a.GatheringId);
        apart.HasOne<BatchRow>().WithMany().HasForeignKey(a => a.OtherRowId);
        apart.HasOne(a => a.Act).WithMany().HasForeignKey(a => a.ActId);
        apart.HasOne(a => a.TakenBackAct).WithMany().HasForeignKey(a => a.TakenBackActId);
    }

    public void Configure(EntityTypeBuilder<SetAside> sheets)
    {
        sheets.ToTable("set_aside");
        sheets.HasOne<Gathering>().WithMany().HasForeignKey(s => s.GatheringId);
        sheets.HasOne<AccessionLot>().WithMany().HasForeignKey(s => s.AccessionId);
        sheets.HasOne<BatchRow>().WithMany().HasForeignKey(s => s.BatchRowId);
        sheets.HasIndex(s => s.BatchRowId).IsUnique();
        sheets.HasOne(s => s.Act).WithMany().HasForeignKey(s => s.ActId);
    }
}
