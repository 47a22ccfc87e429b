using Accession.Storage.Mappings;

namespace Accession.Storage.Specimens;

/// <summary>
/// What the migration that brings treatment, places and plans says of the parts that are there: those that were taken
/// over stand in the collection room since before, and all others are untreated, in quarantine, since they were
/// numbered. Both databases speak it.
/// </summary>
public static class PartsFromBefore
{
    public static IReadOnlyList<string> Statements { get; } =
    [
        "UPDATE step_entry SET mark = 'Done' WHERE mark = ''",
        "UPDATE part SET zone = 'CollectionRoom' WHERE is_from_before",
        $"""
        UPDATE part SET zone = 'Quarantine', plan_id = {StepPlanMapping.OfSheets}, next_step = 'Treated',
            came_from_outside_at = (SELECT a.at FROM custody_entry c JOIN act a ON a.id = c.act_id
                WHERE c.part_id = part.id ORDER BY c.id LIMIT 1)
        WHERE NOT is_from_before
        """,
    ];
}
