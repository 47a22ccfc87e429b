using Accession.Core.People;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class PersonEntryMapping
    : IEntityTypeConfiguration<PersonYears>,
        IEntityTypeConfiguration<PersonHabit>,
        IEntityTypeConfiguration<PersonMerge>
{
    public void Configure(EntityTypeBuilder<PersonYears> years)
    {
        years.ToTable("person_years");
        years.HasOne(y => y.Act).WithMany().HasForeignKey(y => y.ActId);
    }

    public void Configure(EntityTypeBuilder<PersonHabit> habit)
    {
        habit.ToTable("person_habit");
        habit.Property(h => h.Habit).HasConversion<string>().HasMaxLength(20);
        habit.HasOne(h => h.Act).WithMany().HasForeignKey(h => h.ActId);
    }

    public void Configure(EntityTypeBuilder<PersonMerge> merge)
    {
        merge.ToTable("person_merge");
        merge.HasOne<Person>().WithMany().HasForeignKey(m => m.IntoId);
        merge.HasOne(m => m.Act).WithMany().HasForeignKey(m => m.ActId);
        merge.HasOne(m => m.EndedAct).WithMany().HasForeignKey(m => m.EndedActId);
        merge.Navigation(m => m.EndedAct).AutoInclude();
        merge.HasIndex(m => m.PersonId).HasDatabaseName("ix_merged_person")
            .IsUnique().HasFilter("ended_act_id IS NULL");
    }
}
