using Accession.Core.Outcomes;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class ApiTokenMapping : IEntityTypeConfiguration<ApiToken>
{
    public void Configure(EntityTypeBuilder<ApiToken> token)
    {
        token.ToTable("api_token");
        token.Property(t => t.TokenHash).HasMaxLength(64);
        token.HasIndex(t => t.TokenHash).IsUnique();
        token.Property(t => t.Name).HasMaxLength(100);
        token.Property(t => t.RightNames).HasMaxLength(200);
        token.HasOne<Account>().WithMany().HasForeignKey(t => t.AccountId).OnDelete(DeleteBehavior.Cascade);
        token.HasOne(t => t.Act).WithMany().HasForeignKey(t => t.ActId).OnDelete(DeleteBehavior.Restrict);
        token.HasOne(t => t.WithdrawnAct).WithMany().HasForeignKey(t => t.WithdrawnActId)
            .OnDelete(DeleteBehavior.Restrict);
    }
}
