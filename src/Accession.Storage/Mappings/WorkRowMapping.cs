using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class WorkRowMapping : IEntityTypeConfiguration<WorkRow>
{
    public void Configure(EntityTypeBuilder<WorkRow> work)
    {
        work.ToTable("work");
        work.Property(w => w.Kind).HasMaxLength(40);
        work.Property(w => w.Owner).HasMaxLength(80);
        work.HasOne(w => w.Act).WithMany().HasForeignKey(w => w.ActId);
        work.HasOne(w => w.StopAct).WithMany().HasForeignKey(w => w.StopActId);
        work.HasIndex(w => new { w.Kind, w.Subject });
        work.HasIndex(w => w.FinishedAt);
    }
}
