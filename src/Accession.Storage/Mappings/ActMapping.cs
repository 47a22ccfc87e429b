using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class ActMapping : IEntityTypeConfiguration<Act>
{
    public void Configure(EntityTypeBuilder<Act> act)
    {
        act.ToTable("act");
        act.Property(a => a.ActorId).HasMaxLength(64);
        act.Property(a => a.ActorName).HasMaxLength(200);
        act.Property(a => a.What).HasMaxLength(80);
        act.Property(a => a.Reason).HasMaxLength(2000);
        act.Property(a => a.RequestKey).HasMaxLength(80);
        act.Property(a => a.RequestDigest).HasMaxLength(64);
        act.HasIndex(a => new { a.ActorId, a.RequestKey }).IsUnique();
    }
}
