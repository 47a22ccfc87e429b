namespace Accession.Storage.Verifying;

/// <summary>
/// Each check is one statement that both databases speak: its rows are the disagreements, as subject, what is stored,
/// and what the entries say. No statement selects the words or figures of a protected place.
/// </summary>
internal static class RegisterChecks
{
    public static readonly IReadOnlyList<(string Name, string Sql)> All =
    [
        ("Who has each part", """
            SELECT 'part ' || p.code, p.holder, COALESCE(c.holder, 'no custody')
            FROM part p
            LEFT JOIN custody_entry c ON c.id = (SELECT MAX(x.id) FROM custody_entry x WHERE x.part_id = p.id)
            WHERE c.holder IS NULL OR c.holder <> p.holder
            ORDER BY p.id
            """),
        ("Which numbers were scanned back", """
            SELECT 'part ' || p.code,
                CASE WHEN p.is_numbered THEN 'proven' ELSE 'not proven' END,
                CASE WHEN p.is_numbered THEN 'no such step' ELSE 'a step' END
            FROM part p
            WHERE p.is_numbered <> EXISTS (SELECT 1 FROM step_entry s WHERE s.part_id = p.id AND s.step = 'Numbered')
            ORDER BY p.id
            """),
        ("That each specimen has a part", """
            SELECT 'specimen ' || s.catalog_number, 'no part', 'at least one'
            FROM specimen s WHERE NOT EXISTS (SELECT 1 FROM part p WHERE p.specimen_id = s.id)
            ORDER BY s.id
            """),
        ("Current names", """
            SELECT 'specimen ' || s.catalog_number, s.current_name, COALESCE(d.name, '')
            FROM specimen s
            LEFT JOIN determination d ON d.id = COALESCE(
                (SELECT c.determination_id FROM name_choice c WHERE c.id = (
                    SELECT MAX(x.id) FROM name_choice x WHERE x.specimen_id = s.id AND x.counts)),
                (SELECT MIN(x.id) FROM determination x WHERE x.specimen_id = s.id))
            WHERE COALESCE(d.name, '') <> s.current_name
                OR (s.current_determination_id IS NOT NULL AND s.current_determination_id <> d.id)
            ORDER BY s.id
            """),
        ("Which opinions a curator has still to decide on", """
            SELECT 'specimen ' || s.catalog_number || ', ' || d.name,
                CASE WHEN d.waits THEN 'waits' ELSE 'decided' END,
                CASE WHEN d.waits THEN 'decided' ELSE 'waits' END
            FROM determination d JOIN specimen s ON s.id = d.specimen_id
            WHERE d.waits <> (d.kind <> 'Listed'
                AND NOT EXISTS (SELECT 1 FROM name_choice c WHERE c.determination_id = d.id))
            ORDER BY d.id
            """),
        ("Under which name each specimen is filed", """
            SELECT 'specimen ' || s.catalog_number, s.filed_as, COALESCE(f.name, '')
            FROM specimen s
            LEFT JOIN filed_as_entry f ON f.id = (SELECT MAX(x.id) FROM filed_as_entry x WHERE x.specimen_id = s.id)
            WHERE COALESCE(f.name, '') <> s.filed_as
            ORDER BY s.id
            """),
        ("Sheets numbered of each gathering", """
            SELECT 'gathering ' || g.id, CAST(g.sheets_numbered AS text), CAST(COALESCE(c.sheets, 0) AS text)
            FROM gathering g
            LEFT JOIN (SELECT gathering_id, COUNT(*) AS sheets FROM specimen GROUP BY gathering_id) c
                ON c.gathering_id = g.id
            WHERE g.sheets_numbered <> COALESCE(c.sheets, 0) OR g.sheets_numbered > g.sheets_expected
            ORDER BY g.id
            """),
        ("Sheets of each accession's list", """
            SELECT 'accession ' || a.number, CAST(a.sheets_on_list AS text), CAST(COALESCE(c.sheets, 0) AS text)
            FROM accession a
            LEFT JOIN (
                SELECT accession_id, SUM(sheets) AS sheets FROM (
                    SELECT g.accession_id, r.sheets FROM gathering g JOIN batch_row r ON r.id = g.batch_row_id
                    UNION ALL SELECT accession_id, sheets FROM set_aside) t
                GROUP BY accession_id) c
                ON c.accession_id = a.id
            WHERE a.sheets_on_list <> COALESCE(c.sheets, 0)
                AND NOT EXISTS (SELECT 1 FROM work w
                    WHERE w.kind IN ('take rows in', 'take sheets over') AND w.subject = a.id
                        AND w.finished_at IS NULL)
            ORDER BY a.id
            """),
        ("Protection of places", """
            SELECT 'gathering ' || g.id, g.protection, COALESCE(p.category, 'NotSensitive')
            FROM gathering g
            LEFT JOIN locality_protection p
                ON p.id = (SELECT MAX(x.id) FROM locality_protection x WHERE x.gathering_id = g.id)
            WHERE g.protection <> COALESCE(p.category, 'NotSensitive')
            ORDER BY g.id
            """),
        ("Protected places are kept apart, and no others", """
            SELECT 'gathering ' || g.id, g.protection,
                CASE WHEN e.gathering_id IS NULL THEN 'no exact place is kept' ELSE 'an exact place is kept' END
            FROM gathering g LEFT JOIN exact_locality e ON e.gathering_id = g.id
            WHERE (g.protection = 'NotSensitive') <> (e.gathering_id IS NULL)
            ORDER BY g.id
            """),
        ("Numbers are on a sheet, on a roll or ready", """
            WITH span AS (
                SELECT series_id, number AS low, number AS high FROM specimen
                UNION ALL SELECT series_id, first_number, last_number FROM roll
                UNION ALL SELECT series_id, number, number FROM ready_number
                UNION ALL SELECT id, next, next FROM number_series WHERE use = 'Specimens'),
            reach AS (
                SELECT series_id, low, COALESCE(MAX(high) OVER (
                    PARTITION BY series_id ORDER BY low, high
                    ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING), 0) AS before
                FROM span)
            SELECT 'series ' || s.name, 'next is ' || s.next,
                'nothing bears ' || (r.before + 1)
                    || CASE WHEN r.low - 1 > r.before + 1 THEN ' to ' || (r.low - 1) ELSE '' END
            FROM reach r JOIN number_series s ON s.id = r.series_id
            WHERE s.use = 'Specimens' AND r.before + 1 < r.low AND r.before + 1 < s.next
            ORDER BY s.id, r.low
            """),
        ("Which series are closed", """
            SELECT 'series ' || s.name, COALESCE(s.closed_as || ': ' || s.closed_because, 'open'),
                CASE WHEN e.kind IS NULL OR e.kind = 'Opened' THEN 'open' ELSE e.kind || ': ' || a.reason END
            FROM number_series s
            LEFT JOIN series_entry e ON e.id = (SELECT MAX(x.id) FROM series_entry x
                WHERE x.series_id = s.id AND x.kind <> 'WentBehindTakenOver')
            LEFT JOIN act a ON a.id = e.act_id
            WHERE COALESCE(s.closed_as, 'Opened') <> COALESCE(e.kind, 'Opened')
                OR COALESCE(s.closed_because, '') <> CASE
                    WHEN COALESCE(e.kind, 'Opened') = 'Opened' THEN '' ELSE COALESCE(a.reason, '') END
            ORDER BY s.id
            """),
        ("Numbers of a closed series are withheld", """
            SELECT 'number ' || n.written, CASE WHEN n.is_withheld THEN 'withheld' ELSE 'may be taken' END,
                CASE WHEN s.closed_as IS NULL THEN 'its series is open' ELSE 'its series is closed' END
            FROM ready_number n JOIN number_series s ON s.id = n.series_id
            WHERE n.is_withheld <> (s.closed_as IS NOT NULL)
            ORDER BY n.series_id, n.number
            """),
        ("Rolls have no number in common", """
            SELECT 'roll ' || r.name, r.first_number || ' to ' || r.last_number,
                o.first_number || ' to ' || o.last_number || ' stands on the roll ' || o.name
            FROM roll r JOIN roll o ON o.series_id = r.series_id AND o.id > r.id
                AND o.first_number <= r.last_number AND r.first_number <= o.last_number
            ORDER BY r.id, o.id
            """),
        ("Numbers that are void are on no sheet", """
            SELECT 'specimen ' || p.catalog_number, 'on a sheet', 'void: ' || COALESCE(a.reason, 'no reason')
            FROM voided_numbers v JOIN act a ON a.id = v.act_id
            JOIN specimen p ON p.series_id = v.series_id AND p.number BETWEEN v.first_number AND v.last_number
            WHERE NOT EXISTS (SELECT 1 FROM void_taken_back b WHERE b.void_id = v.id)
            ORDER BY p.id
            """),
        ("Numbers that are void stand on their roll", """
            SELECT 'roll ' || r.name, v.first_number || ' to ' || v.last_number || ' are void',
                'the roll has ' || r.first_number || ' to ' || r.last_number
            FROM voided_numbers v JOIN roll r ON r.id = v.roll_id
            WHERE v.series_id <> r.series_id OR v.last_number < v.first_number
                OR v.first_number < r.first_number OR v.last_number > r.last_number
            ORDER BY v.id
            """),
        ("Numbers that lie ready are free", """
            SELECT 'number ' || n.written, 'lies ready', 'it is on a sheet, on a roll, or not issued yet'
            FROM ready_number n JOIN number_series s ON s.id = n.series_id
            WHERE n.number >= s.next
                OR EXISTS (SELECT 1 FROM specimen p WHERE p.series_id = n.series_id AND p.number = n.number)
                OR EXISTS (SELECT 1 FROM roll r
                    WHERE r.series_id = n.series_id AND n.number BETWEEN r.first_number AND r.last_number)
            ORDER BY n.series_id, n.number
            """),
        ("No number comes before it is issued", """
            SELECT 'specimen ' || p.catalog_number, 'next is ' || s.next, 'number ' || p.number || ' is on a sheet'
            FROM specimen p JOIN number_series s ON s.id = p.series_id
            WHERE p.number >= s.next AND NOT EXISTS (SELECT 1 FROM roll r
                WHERE r.series_id = s.id AND p.number BETWEEN r.first_number AND r.last_number)
            ORDER BY p.id
            """),
        ("Sheets set aside", """
            SELECT 'batch row ' || r.id, COALESCE('gathering ' || r.gathering_id, 'not in the register'),
                'its sheets are counted under gathering ' || s.gathering_id
            FROM set_aside s JOIN batch_row r ON r.id = s.batch_row_id
            WHERE COALESCE(r.gathering_id, 0) <> s.gathering_id
            ORDER BY r.id
            """),
        ("What was decided about rows", """
            SELECT 'batch row ' || r.id, COALESCE(r.decision, 'nothing'), COALESCE(e.decision, 'nothing')
            FROM batch_row r
            LEFT JOIN decision_entry e ON e.id = (SELECT MAX(x.id) FROM decision_entry x WHERE x.row_id = r.id)
            WHERE COALESCE(r.decision, '') <> COALESCE(e.decision, '')
            ORDER BY r.id
            """),
        ("Which batches are closed", """
            SELECT 'batch ' || b.id, COALESCE('closed by act ' || b.closed_act_id, 'open'),
                CASE WHEN c.is_closing THEN 'closed by act ' || c.act_id ELSE 'open' END
            FROM batch b
            LEFT JOIN batch_closing c ON c.id = (SELECT MAX(x.id) FROM batch_closing x WHERE x.batch_id = b.id)
            WHERE COALESCE(b.closed_act_id, 0) <> CASE WHEN c.is_closing THEN c.act_id ELSE 0 END
            ORDER BY b.id
            """),
        ("Closed batches wait for nothing", """
            SELECT 'batch ' || b.id, 'closed', COUNT(*) || ' rows wait'
            FROM batch b JOIN batch_row r ON r.batch_id = b.id
            WHERE b.closed_act_id IS NOT NULL AND r.superseded_by_id IS NULL AND r.withdrawn_in_list_id IS NULL
                AND r.gathering_id IS NULL
            GROUP BY b.id ORDER BY b.id
            """),
        ("Permits that were corrected hold no longer", """
            SELECT 'permit ' || p.id, COALESCE('ended by act ' || p.ended_act_id, 'holds'),
                'corrected by act ' || c.act_id
            FROM permit p JOIN permit c ON c.replaces_id = p.id
            WHERE COALESCE(p.ended_act_id, 0) <> c.act_id
            ORDER BY p.id
            """),
        ("Letters are sent, refused or under way", """
            SELECT 'letter ' || l.id,
                CASE WHEN l.sent_at IS NULL THEN 'not sent' ELSE 'sent' END
                    || CASE WHEN l.refused_at IS NULL THEN '' ELSE ' and refused' END,
                CASE WHEN w.id IS NULL THEN 'no work sends it' ELSE 'work ' || w.id || ' sends it' END
            FROM letter l
            LEFT JOIN work w ON w.kind = 'send a letter' AND w.subject = l.id AND w.finished_at IS NULL
            WHERE (l.sent_at IS NOT NULL AND l.refused_at IS NOT NULL)
                OR (l.sent_at IS NULL AND l.refused_at IS NULL AND w.id IS NULL)
            ORDER BY l.id
            """),
        ("Duplicates are of the first gathering", """
            SELECT 'gathering ' || g.id, 'a duplicate of ' || g.duplicate_of_id,
                COALESCE('that is a duplicate of ' || f.duplicate_of_id, 'no such gathering')
            FROM gathering g LEFT JOIN gathering f ON f.id = g.duplicate_of_id
            WHERE g.duplicate_of_id IS NOT NULL AND (f.id IS NULL OR f.duplicate_of_id IS NOT NULL)
            ORDER BY g.id
            """),
        ("Sheets that bear one number are told apart", """
            SELECT 'catalog number ' || MIN(catalog_number), COUNT(*) || ' sheets, the last is ' || (MAX(repeat) + 1),
                'sheets 1 to ' || COUNT(*) || ', each once'
            FROM specimen GROUP BY series_id, number
            HAVING COUNT(*) <> MAX(repeat) + 1 OR COUNT(DISTINCT repeat) <> COUNT(*) OR MIN(repeat) <> 0
            ORDER BY series_id, number
            """),
        ("One number of the numbers from before is one text", """
            SELECT 'catalog number ' || MIN(p.catalog_number), 'stands for ' || MAX(p.catalog_number) || ' too',
                'each number by itself'
            FROM specimen p JOIN number_series s ON s.id = p.series_id
            WHERE s.use = 'FromBefore'
            GROUP BY p.series_id, p.number HAVING COUNT(DISTINCT p.catalog_number) > 1
            ORDER BY p.number
            """),
        ("Only sheets that were taken over bear a number again, or one from before", """
            SELECT 'specimen ' || p.catalog_number, 'sheet ' || (p.repeat + 1) || ' of that number, ' || s.name,
                'accession ' || a.number || ' was not taken over'
            FROM specimen p JOIN number_series s ON s.id = p.series_id
            JOIN gathering g ON g.id = p.gathering_id JOIN accession a ON a.id = g.accession_id
            WHERE a.terms <> 'TakenOver' AND (s.use = 'FromBefore' OR p.repeat > 0)
            ORDER BY p.id
            """),
        ("Parts that were here before are of sheets that were taken over", """
            SELECT 'part ' || p.code, CASE WHEN p.is_from_before THEN 'from before' ELSE 'sheet ' || (p.repeat + 1) END,
                'sheet ' || (s.repeat + 1) || ' of accession ' || a.number
            FROM part p JOIN specimen s ON s.id = p.specimen_id
            JOIN gathering g ON g.id = s.gathering_id JOIN accession a ON a.id = g.accession_id
            WHERE p.repeat <> s.repeat OR (p.is_from_before AND a.terms <> 'TakenOver')
            ORDER BY p.id
            """),
        ("Rows and the gatherings they became", """
            WITH RECURSIVE corrected (row_id, gathering_id) AS (
                SELECT g.batch_row_id, g.id
                FROM gathering g JOIN batch_row r ON r.gathering_id = g.id AND r.id <> g.batch_row_id
                UNION
                SELECT s.batch_row_id, s.gathering_id FROM set_aside s
                UNION
                SELECT r.superseded_by_id, c.gathering_id
                FROM corrected c JOIN batch_row r ON r.id = c.row_id WHERE r.superseded_by_id IS NOT NULL)
            SELECT 'batch row ' || r.id, 'gathering ' || r.gathering_id, 'that gathering is of row ' || g.batch_row_id
            FROM batch_row r JOIN gathering g ON g.id = r.gathering_id
            WHERE g.batch_row_id <> r.id
                AND NOT EXISTS (SELECT 1 FROM corrected c WHERE c.row_id = r.id AND c.gathering_id = g.id)
            ORDER BY r.id
            """),
        ("Gatherings and the rows they came from", """
            SELECT 'gathering ' || g.id, 'of batch row ' || r.id,
                COALESCE('that row became gathering ' || r.gathering_id, 'that row became no gathering')
            FROM gathering g JOIN batch_row r ON r.id = g.batch_row_id
            WHERE r.gathering_id IS NULL OR r.gathering_id <> g.id
            ORDER BY g.id
            """),
        .. TreatmentChecks.All,
        .. PersonChecks.All,
    ];
}
