using Accession.Core.Batches;
using Accession.Core.Parcels;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PrivateLinkMapping : IEntityTypeConfiguration<PrivateLink>
{
    public void Configure(EntityTypeBuilder<PrivateLink> link)
    {
        link.ToTable("private_link");
        link.Property(l => l.TokenHash).HasMaxLength(64);
        link.HasIndex(l => l.TokenHash).IsUnique();
        link.HasOne<Parcel>().WithMany().HasForeignKey(l => l.ParcelId);
        link.HasOne<Batch>().WithMany().HasForeignKey(l => l.BatchId);
        link.HasOne(l => l.Act).WithMany().HasForeignKey(l => l.ActId);
        link.HasOne(l => l.EndedAct).WithMany().HasForeignKey(l => l.EndedActId);
    }
}
