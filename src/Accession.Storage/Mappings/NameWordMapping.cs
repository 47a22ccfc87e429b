using Accession.Core.Texts;
using Accession.Storage.Finding;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class NameWordMapping : IEntityTypeConfiguration<NameWord>
{
    public void Configure(EntityTypeBuilder<NameWord> word)
    {
        word.ToTable("name_word");
        word.Property(w => w.Word).HasMaxLength(NearWords.Longest);
        word.HasIndex(w => w.Word);
    }
}
