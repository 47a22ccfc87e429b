using Accession.Core.Localities;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class AccountMapping
    : IEntityTypeConfiguration<Account>, IEntityTypeConfiguration<SignInLink>, IEntityTypeConfiguration<AccountCounty>
{
    public void Configure(EntityTypeBuilder<Account> account) =>
        account.Property(a => a.DisplayName).HasMaxLength(200);

    public void Configure(EntityTypeBuilder<SignInLink> link)
    {
        link.ToTable("sign_in_link");
        link.Property(l => l.TokenHash).HasMaxLength(64);
        link.HasIndex(l => l.TokenHash).IsUnique();
        link.HasOne<Account>().WithMany().HasForeignKey(l => l.AccountId);
    }

    public void Configure(EntityTypeBuilder<AccountCounty> county)
    {
        county.ToTable("account_county");
        county.HasKey(c => new { c.AccountId, c.CountyKey });
        county.Property(c => c.AccountId).HasMaxLength(64);
        county.Property(c => c.CountyKey).HasMaxLength(CountyName.LongestKey);
        county.Property(c => c.Written).HasMaxLength(200);
        county.HasOne<Account>().WithMany().HasForeignKey(c => c.AccountId);
    }
}
