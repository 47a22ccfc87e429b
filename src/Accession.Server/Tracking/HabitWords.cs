using Accession.Core.People;

namespace Accession.Server.Tracking;

/// <summary>Ways of numbering in the words of the trade.</summary>
internal static class HabitWords
{
    public static string Of(NumberingHabit? habit) => habit switch
    {
        NumberingHabit.OneRun => "One run for life",
        NumberingHabit.RestartsYearly => "Begins anew each year",
        NumberingHabit.ByProject => "By project, class or crew",
        _ => "Not known",
    };

    /// <summary>What the numbers show, with what speaks for it.</summary>
    public static string Of(NumberingEvidence evidence) => evidence switch
    {
        { Read: < NumberingRuns.Fewest } =>
            $"There are {Count(evidence.Read, "number")} with a full date; from fewer than {NumberingRuns.Fewest} "
            + "nothing is proposed.",
        { Habit: NumberingHabit.RestartsYearly, WithYear: var with } when with * 2 > evidence.Read =>
            $"They look like numbers that begin anew each year: {with:N0} of {evidence.Read:N0} have their year before "
            + "them.",
        { Habit: NumberingHabit.RestartsYearly } =>
            $"They look like numbers that begin anew each year: {evidence.Restarts:N0} of {evidence.YearChanges:N0} "
            + "changes of year go back to low numbers.",
        { Habit: NumberingHabit.ByProject } =>
            $"They look like runs beside each other, under {string.Join(" and ", evidence.Prefixes.Select(Prefix))}.",
        { Habit: NumberingHabit.OneRun } =>
            $"They look like one run for life: {evidence.Rises:N0} of {evidence.Steps:N0} steps from one day to "
            + $"a later one go up, and {evidence.GoOn:N0} of {evidence.YearChanges:N0} changes of year go on above the "
            + "year before.",
        { YearChanges: 0 } =>
            $"They show no habit yet: {Count(evidence.Read, "number")}, of too few years to see more.",
        _ => $"They show no habit: {evidence.Rises:N0} of {evidence.Steps:N0} steps from one day to a later one go up, "
            + $"and {evidence.Restarts:N0} of {evidence.YearChanges:N0} changes of year go back to low numbers.",
    };

    private static string Count(int count, string what) => count == 1 ? $"1 {what}" : $"{count:N0} {what}s";

    private static string Prefix(string prefix) =>
        prefix.Length == 0 ? "no prefix" : $"\"{prefix.ToUpperInvariant()}\"";
}
