using Accession.Core.Localities;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class ExactLocalityMapping : IEntityTypeConfiguration<ExactLocality>
{
    public void Configure(EntityTypeBuilder<ExactLocality> exact)
    {
        exact.ToTable("exact_locality");
        exact.HasKey(e => e.GatheringId);
        exact.HasOne(e => e.Gathering).WithOne().HasForeignKey<ExactLocality>(e => e.GatheringId);
        exact.Property(e => e.Municipality);
        exact.Property(e => e.Locality);
        exact.Property(e => e.Habitat);
        exact.Property(e => e.Remarks);
        exact.Property(e => e.CoordinatesVerbatim);
        exact.Property(e => e.Latitude);
        exact.Property(e => e.Longitude);
        exact.Property(e => e.CoordinatePrecision);
        exact.Property(e => e.UncertaintyInMeters);
        exact.Property(e => e.ElevationVerbatim);
        exact.Property(e => e.MinimumElevationInMeters);
        exact.Property(e => e.MaximumElevationInMeters);
    }
}
