using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class StepPlanMapping : IEntityTypeConfiguration<StepPlan>, IEntityTypeConfiguration<PlannedStep>
{
    /// <summary>The plan that comes with the program: what a sheet usually needs.</summary>
    public const long OfSheets = 1;

    // Treated first, because what is frozen unopened is treated before anybody numbers it.
    private static readonly Step[] Usual =
        [Step.Treated, Step.Numbered, Step.Mounted, Step.Labelled, Step.Imaged, Step.Filed];

    public void Configure(EntityTypeBuilder<StepPlan> plan)
    {
        plan.ToTable("step_plan");
        plan.Property(p => p.Kind).HasMaxLength(40);
        plan.HasIndex(p => new { p.Kind, p.Edition }).IsUnique();
        // The series has no foreign key: SQLite would have to build the whole table anew for it.
        plan.HasOne(p => p.Act).WithMany().HasForeignKey(p => p.ActId);
        plan.HasMany(p => p.Steps).WithOne().HasForeignKey(s => s.PlanId);
        plan.Navigation(p => p.Steps).AutoInclude();
        plan.HasData(new { Id = OfSheets, Kind = StepPlan.Sheet, Edition = 1 });
    }

    public void Configure(EntityTypeBuilder<PlannedStep> step)
    {
        step.ToTable("planned_step");
        step.HasKey(s => new { s.PlanId, s.Position });
        step.Property(s => s.Position).ValueGeneratedNever();
        step.Property(s => s.After).HasMaxLength(100);
        step.HasData(Usual.Select((one, k) => new
        {
            PlanId = OfSheets,
            Position = k + 1,
            Step = one,
            After = string.Join(' ', StepPlan.Before(one)),
        }));
    }
}
