using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class AccountMapping : IEntityTypeConfiguration<Account>, IEntityTypeConfiguration<SignInLink>
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
}
