namespace Accession.Core.People;

/// <summary>How a collector numbers. The values are stored; do not renumber.</summary>
public enum NumberingHabit
{
    /// <summary>One run of numbers for life: a number comes once.</summary>
    OneRun = 1,

    /// <summary>The numbers begin anew each year: a number may come once in each.</summary>
    RestartsYearly = 2,

    /// <summary>By project, class or crew: several runs beside each other, each with a number once.</summary>
    ByProject = 3,
}
