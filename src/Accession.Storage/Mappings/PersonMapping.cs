using Accession.Core.People;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PersonMapping
    : IEntityTypeConfiguration<Person>, IEntityTypeConfiguration<PersonSpelling>, IEntityTypeConfiguration<AccountTie>
{
    public void Configure(EntityTypeBuilder<Person> person)
    {
        person.ToTable("person");
        person.Property(p => p.Name).HasMaxLength(Person.LongestName);
        person.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
        person.HasMany(p => p.Spellings).WithOne().HasForeignKey(s => s.PersonId);
        person.HasMany(p => p.Ties).WithOne().HasForeignKey(t => t.PersonId);
        person.Navigation(p => p.Spellings).AutoInclude();
        person.Navigation(p => p.Ties).AutoInclude();
        person.HasMany(p => p.YearsStated).WithOne().HasForeignKey(y => y.PersonId);
        person.HasMany(p => p.HabitsStated).WithOne().HasForeignKey(h => h.PersonId);
        person.HasMany(p => p.Merges).WithOne().HasForeignKey(m => m.PersonId);
        person.Navigation(p => p.YearsStated).AutoInclude();
        person.Navigation(p => p.HabitsStated).AutoInclude();
        person.Navigation(p => p.Merges).AutoInclude();
        person.Property(p => p.Habit).HasConversion<string>().HasMaxLength(20);
        person.Ignore(p => p.Tie);
        person.Ignore(p => p.Years);
        person.Ignore(p => p.Written);
        person.Property(p => p.Version).IsConcurrencyToken();
    }

    public void Configure(EntityTypeBuilder<PersonSpelling> spelling)
    {
        spelling.ToTable("person_spelling");
        spelling.Property(s => s.Written).HasMaxLength(Person.LongestName);
        spelling.Property(s => s.FamilyKey).HasMaxLength(Person.LongestName);
        spelling.HasOne(s => s.Act).WithMany().HasForeignKey(s => s.ActId);
        spelling.HasOne(s => s.EndedAct).WithMany().HasForeignKey(s => s.EndedActId);
        spelling.Navigation(s => s.EndedAct).AutoInclude();
        // Two persons of one spelling have each a place of their own: who gives it to a second one has seen the first.
        spelling.HasIndex(s => new { s.Written, s.Place }).IsUnique().HasFilter("ended_act_id IS NULL");
    }

    public void Configure(EntityTypeBuilder<AccountTie> tie)
    {
        tie.ToTable("account_tie");
        tie.Property(t => t.AccountId).HasMaxLength(64);
        tie.HasOne<Account>().WithMany().HasForeignKey(t => t.AccountId);
        tie.HasOne(t => t.Act).WithMany().HasForeignKey(t => t.ActId);
        tie.HasOne(t => t.EndedAct).WithMany().HasForeignKey(t => t.EndedActId);
        tie.Navigation(t => t.EndedAct).AutoInclude();
        tie.HasIndex(t => t.AccountId).IsUnique().HasFilter("ended_act_id IS NULL");
        tie.HasIndex(t => t.PersonId).IsUnique().HasFilter("ended_act_id IS NULL");
    }
}
