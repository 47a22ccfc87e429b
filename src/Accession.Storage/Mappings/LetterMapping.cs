using Accession.Core.Batches;
using Accession.Core.Letters;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class LetterMapping : IEntityTypeConfiguration<Letter>, IEntityTypeConfiguration<MailHold>
{
    public void Configure(EntityTypeBuilder<Letter> letter)
    {
        letter.ToTable("letter");
        letter.HasOne(l => l.Act).WithMany().HasForeignKey(l => l.ActId);
        letter.HasOne<BatchRow>().WithMany().HasForeignKey(l => l.RowId);
        letter.HasOne<DecisionEntry>().WithMany().HasForeignKey(l => l.DecisionId);
        letter.Property(l => l.To).HasMaxLength(LetterAddress.Longest);
        letter.Property(l => l.Subject).HasMaxLength(Letter.LongestSubject);
        letter.Property(l => l.MessageId).HasMaxLength(400);
        letter.Property(l => l.RefusedBecause).HasMaxLength(Letter.LongestWords);
        letter.Property(l => l.Trouble).HasMaxLength(Letter.LongestWords);
        letter.HasIndex(l => l.MessageId).IsUnique();
        letter.HasIndex(l => new { l.RowId, l.Ordinal }).IsUnique();
        letter.Property(l => l.Version).IsConcurrencyToken();
        letter.Ignore(l => l.Waits);
    }

    public void Configure(EntityTypeBuilder<MailHold> hold)
    {
        hold.ToTable("mail_hold");
        hold.HasOne(h => h.Act).WithMany().HasForeignKey(h => h.ActId);
        hold.HasOne(h => h.ReleasedAct).WithMany().HasForeignKey(h => h.ReleasedActId);
    }
}
