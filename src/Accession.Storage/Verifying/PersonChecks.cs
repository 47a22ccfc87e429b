namespace Accession.Storage.Verifying;

/// <summary>What stands beside the entries about collectors on record.</summary>
internal static class PersonChecks
{
    public static readonly IReadOnlyList<(string Name, string Sql)> All =
    [
        ("In which years each collector collected", """
            SELECT 'collector ' || p.name,
                COALESCE(CAST(p.first_year AS text), '') || '-' || COALESCE(CAST(p.last_year AS text), ''),
                COALESCE(CAST(y.first_year AS text), '') || '-' || COALESCE(CAST(y.last_year AS text), '')
            FROM person p
            LEFT JOIN person_years y ON y.id = (SELECT MAX(x.id) FROM person_years x WHERE x.person_id = p.id)
            WHERE COALESCE(p.first_year, 0) <> COALESCE(y.first_year, 0)
                OR COALESCE(p.last_year, 0) <> COALESCE(y.last_year, 0)
            ORDER BY p.id
            """),
        ("How each collector numbers", """
            SELECT 'collector ' || p.name, COALESCE(p.habit, ''), COALESCE(h.habit, '')
            FROM person p
            LEFT JOIN person_habit h ON h.id = (SELECT MAX(x.id) FROM person_habit x WHERE x.person_id = p.id)
            WHERE COALESCE(p.habit, '') <> COALESCE(h.habit, '')
            ORDER BY p.id
            """),
        ("Into whom each collector was merged", """
            SELECT 'collector ' || p.name, COALESCE(CAST(p.merged_into_id AS text), 'nobody'),
                COALESCE(CAST(m.into_id AS text), 'nobody')
            FROM person p
            LEFT JOIN person_merge m ON m.person_id = p.id AND m.ended_act_id IS NULL
            WHERE COALESCE(p.merged_into_id, 0) <> COALESCE(m.into_id, 0)
            ORDER BY p.id
            """),
        ("That nothing is left with a collector who was merged", """
            SELECT 'collector ' || p.name, '"' || s.written || '"', 'nothing'
            FROM person p JOIN person_spelling s ON s.person_id = p.id AND s.ended_act_id IS NULL
            WHERE p.merged_into_id IS NOT NULL
            ORDER BY s.id
            """),
        ("That no year is of two collectors of one spelling", """
            SELECT '"' || a.written || '"', p.name || ' and ' || q.name, 'years that do not overlap'
            FROM person_spelling a
            JOIN person_spelling b ON b.written = a.written AND b.id > a.id AND b.ended_act_id IS NULL
                AND b.person_id <> a.person_id
            JOIN person p ON p.id = a.person_id
            JOIN person q ON q.id = b.person_id
            WHERE a.ended_act_id IS NULL
                AND (p.first_year IS NULL OR q.last_year IS NULL OR p.first_year <= q.last_year)
                AND (q.first_year IS NULL OR p.last_year IS NULL OR q.first_year <= p.last_year)
            ORDER BY a.id
            """),
    ];
}
