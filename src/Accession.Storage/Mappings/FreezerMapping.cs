using Accession.Core.FreezerLoads;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Accession.Storage.Mappings;

internal sealed class FreezerMapping
    : IEntityTypeConfiguration<Freezer>, IEntityTypeConfiguration<Regime>, IEntityTypeConfiguration<HouseRule>,
        IEntityTypeConfiguration<HouseRuleHours>
{
    private const int Day = RegimeTerms.UsualOpenAfterHours;

    public void Configure(EntityTypeBuilder<Freezer> freezer)
    {
        freezer.ToTable("freezer");
        freezer.Property(f => f.Name).HasMaxLength(Freezer.LongestName);
        freezer.Property(f => f.Place).HasMaxLength(Freezer.LongestName);
        freezer.HasIndex(f => f.Name).IsUnique();
        freezer.HasOne(f => f.Act).WithMany().HasForeignKey(f => f.ActId);
    }

    // Four to begin with, each with who says so. What is practised elsewhere runs from 48 h at -18 to 14 days at -40.
    public void Configure(EntityTypeBuilder<Regime> regime)
    {
        regime.ToTable("regime");
        regime.Property(r => r.Name).HasMaxLength(100);
        regime.Property(r => r.Source).HasMaxLength(500);
        regime.Property(r => r.ThresholdCelsius).HasPrecision(5, 1);
        regime.HasIndex(r => new { r.Name, r.Edition }).IsUnique();
        regime.HasOne(r => r.Act).WithMany().HasForeignKey(r => r.ActId);
        regime.Ignore(r => r.Words);
        regime.HasData(
            Shipped(1, "Three days at −30", -30, 72, 1, 0,
                "Practice of two national collections, told on a collections discussion list in 2000 and 2018; from "
                + "memory also Canadian and British conservation guidance"),
            Shipped(2, "A week at −20", -20, 168, 1, 0,
                "Strang 1992, as cited in NPS Conserve O Gram 3/6 (1994): 6 to 10 days at −20 °C are enough for most "
                + "museum pests"),
            Shipped(3, "Two weeks at −18", -18, 336, 1, 0,
                "A museum conservator on a discussion list: 14 days at least for dense material, and its middle must "
                + "get there"),
            Shipped(4, "Two times two days at −20", -20, 48, 2, 24,
                "NPS Conserve O Gram 3/6 (1994) for two times 48 h; the warm interval is common practice, no published "
                + "source"));
    }

    public void Configure(EntityTypeBuilder<HouseRule> rule)
    {
        rule.ToTable("house_rule");
        rule.Property(r => r.Text).HasMaxLength(1000);
        rule.Property(r => r.Source).HasMaxLength(500);
        rule.HasOne(r => r.Act).WithMany().HasForeignKey(r => r.ActId);
        rule.HasOne(r => r.EndedAct).WithMany().HasForeignKey(r => r.EndedActId);
        rule.HasMany(r => r.Hours).WithOne().HasForeignKey(h => h.HouseRuleId);
        rule.Navigation(r => r.Hours).AutoInclude();
    }

    public void Configure(EntityTypeBuilder<HouseRuleHours> hours)
    {
        hours.ToTable("house_rule_hours");
        hours.Property(h => h.ThresholdCelsius).HasPrecision(5, 1);
    }

    private static object Shipped(
        long id, string name, decimal celsius, int hours, int cycles, int interval, string source) => new
        {
            Id = id,
            Name = name,
            Edition = 1,
            ThresholdCelsius = celsius,
            ExposureHours = hours,
            Cycles = cycles,
            IntervalHours = interval,
            OpenAfterHours = Day,
            Source = source,
        };
}
