namespace Accession.Storage.Verifying;

/// <summary>The checks of parcels, freezer loads, places and steps; as <see cref="RegisterChecks"/>.</summary>
internal static class TreatmentChecks
{
    public static readonly IReadOnlyList<(string Name, string Sql)> All =
    [
        ("What cleared each part", """
            SELECT 'part ' || p.code, COALESCE(p.cleared_by, 'untreated'), COALESCE(c.cleared_by, 'no clearance')
            FROM part p
            LEFT JOIN clearance_entry c ON c.id = (SELECT x.id FROM clearance_entry x
                WHERE x.part_id = p.id ORDER BY x.cleared_at DESC, x.id DESC LIMIT 1)
            WHERE COALESCE(p.cleared_by, '') <> COALESCE(c.cleared_by, '')
                OR (c.id IS NOT NULL AND (p.cleared_at <> c.cleared_at OR p.may_open_from <> c.may_open_from))
                OR (c.id IS NULL AND (p.cleared_at IS NOT NULL OR p.may_open_from IS NOT NULL))
            ORDER BY p.id
            """),
        ("What cleared each parcel", """
            SELECT 'parcel ' || p.tag, COALESCE(p.cleared_by, 'untreated'), COALESCE(c.cleared_by, 'no clearance')
            FROM parcel p
            LEFT JOIN parcel_clearance c ON c.id = (SELECT x.id FROM parcel_clearance x
                WHERE x.parcel_id = p.id ORDER BY x.cleared_at DESC, x.id DESC LIMIT 1)
            WHERE COALESCE(p.cleared_by, '') <> COALESCE(c.cleared_by, '')
                OR (c.id IS NOT NULL AND (p.cleared_at <> c.cleared_at OR p.may_open_from <> c.may_open_from))
                OR (c.id IS NULL AND (p.cleared_at IS NOT NULL OR p.may_open_from IS NOT NULL))
            ORDER BY p.id
            """),
        ("When each part came from outside", """
            WITH came AS (
                SELECT p.id, COALESCE(
                    (SELECT MAX(a.at) FROM place_entry e JOIN act a ON a.id = e.act_id
                        WHERE e.part_id = p.id AND e.crossed_outside AND e.taken_back_act_id IS NULL),
                    CASE WHEN p.is_from_before THEN NULL ELSE COALESCE(
                        (SELECT q.came_at FROM parcel q WHERE q.id = p.parcel_id),
                        (SELECT a.at FROM custody_entry c JOIN act a ON a.id = c.act_id
                            WHERE c.part_id = p.id ORDER BY c.id LIMIT 1)) END) AS at
                FROM part p)
            SELECT 'part ' || p.code, CASE WHEN p.came_from_outside_at IS NULL THEN 'never' ELSE 'another time' END,
                CASE WHEN c.at IS NULL THEN 'never' ELSE 'as its entries say' END
            FROM part p JOIN came c ON c.id = p.id
            WHERE (p.came_from_outside_at IS NULL) <> (c.at IS NULL) OR p.came_from_outside_at <> c.at
            ORDER BY p.id
            """),
        ("Where each part stands", """
            SELECT 'part ' || p.code, p.zone, COALESCE(l.zone || ', ' || l.name, 'put nowhere')
            FROM part p
            LEFT JOIN place_entry e ON e.id = (SELECT MAX(x.id) FROM place_entry x
                WHERE x.part_id = p.id AND x.taken_back_act_id IS NULL)
            LEFT JOIN place l ON l.id = e.place_id
            WHERE COALESCE(p.place_id, 0) <> COALESCE(e.place_id, 0)
                OR p.zone <> COALESCE(l.zone, CASE WHEN p.is_from_before THEN 'CollectionRoom' ELSE 'Quarantine' END)
            ORDER BY p.id
            """),
        ("Nothing untreated went to the collection room", """
            SELECT 'part ' || p.code, 'put in ' || l.name, 'not cleared, or sealed still'
            FROM place_entry e JOIN place l ON l.id = e.place_id JOIN part p ON p.id = e.part_id
            JOIN act a ON a.id = e.act_id
            WHERE l.zone = 'CollectionRoom'
                AND NOT (p.is_from_before AND NOT EXISTS (SELECT 1 FROM place_entry o
                    WHERE o.part_id = p.id AND o.id < e.id AND o.crossed_outside AND o.taken_back_act_id IS NULL))
                AND NOT EXISTS (SELECT 1 FROM clearance_entry c
                    WHERE c.part_id = p.id AND c.act_id < e.act_id AND c.may_open_from <= a.at
                        AND NOT EXISTS (SELECT 1 FROM place_entry o JOIN act b ON b.id = o.act_id
                            WHERE o.part_id = p.id AND o.id <= e.id AND o.crossed_outside
                                AND o.taken_back_act_id IS NULL AND b.at >= c.cleared_at))
            ORDER BY e.id
            """),
        ("Which step each part waits for", """
            WITH last_mark AS (
                SELECT s.part_id, s.step, s.mark FROM step_entry s
                WHERE s.id = (SELECT MAX(x.id) FROM step_entry x WHERE x.part_id = s.part_id AND x.step = s.step)),
            waits AS (
                SELECT p.id, CASE
                    WHEN p.plan_id IS NULL THEN (SELECT m.step FROM last_mark m
                        WHERE m.part_id = p.id AND m.step = 'Treated' AND m.mark = 'NeededAgain')
                    ELSE (SELECT n.step FROM planned_step n WHERE n.plan_id = p.plan_id AND NOT EXISTS (
                        SELECT 1 FROM last_mark m
                        WHERE m.part_id = p.id AND m.step = n.step AND m.mark <> 'NeededAgain')
                        ORDER BY n.position LIMIT 1) END AS step
                FROM part p)
            SELECT 'part ' || p.code, COALESCE(p.next_step, 'nothing'), COALESCE(w.step, 'nothing')
            FROM part p JOIN waits w ON w.id = p.id
            WHERE COALESCE(p.next_step, '') <> COALESCE(w.step, '')
            ORDER BY p.id
            """),
        ("Plans and parcels of parts are there", """
            SELECT 'part ' || p.code, 'plan ' || COALESCE(p.plan_id, 0) || ', parcel ' || COALESCE(p.parcel_id, 0),
                'no such plan or parcel'
            FROM part p
            WHERE (p.plan_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM step_plan s WHERE s.id = p.plan_id))
                OR (p.parcel_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM parcel q WHERE q.id = p.parcel_id))
            ORDER BY p.id
            """),
        ("Which open list each thing stands on", """
            WITH opened AS (
                SELECT i.part_id, i.parcel_id, i.load_id FROM load_item i JOIN freezer_load l ON l.id = i.load_id
                WHERE l.standing IN ('Listed', 'Running', 'TakenOut') AND i.taken_off_act_id IS NULL)
            SELECT 'part ' || p.code, 'load ' || COALESCE(p.load_id, 0), 'load ' || COALESCE(o.load_id, 0)
            FROM part p LEFT JOIN opened o ON o.part_id = p.id
            WHERE (p.load_id IS NOT NULL OR o.load_id IS NOT NULL)
                AND COALESCE(p.load_id, 0) <> COALESCE(o.load_id, 0)
            UNION ALL
            SELECT 'parcel ' || q.tag, 'load ' || COALESCE(q.load_id, 0), 'load ' || COALESCE(o.load_id, 0)
            FROM parcel q LEFT JOIN opened o ON o.parcel_id = q.id AND o.part_id IS NULL
            WHERE COALESCE(q.load_id, 0) <> COALESCE(o.load_id, 0)
            """),
        ("How each freezer load stands", """
            SELECT 'load ' || l.number, l.standing, COALESCE(e.what, 'no entry')
            FROM freezer_load l
            LEFT JOIN load_entry e ON e.id = (SELECT MAX(x.id) FROM load_entry x WHERE x.load_id = l.id)
            WHERE l.standing <> CASE COALESCE(e.what, '') WHEN 'LidClosed' THEN 'Running'
                    WHEN 'ClockBeganAgain' THEN 'Running' ELSE COALESCE(e.what, '') END
                OR COALESCE(l.clock_from, l.taken_out_at) IS NULL AND l.standing <> 'Listed'
                OR l.clock_from <> (SELECT MAX(x.at) FROM load_entry x
                    WHERE x.load_id = l.id AND x.what IN ('LidClosed', 'ClockBeganAgain'))
                OR l.taken_out_at <> (SELECT MAX(x.at) FROM load_entry x
                    WHERE x.load_id = l.id AND x.what = 'TakenOut')
            ORDER BY l.id
            """),
        ("Tags and load numbers have no gaps", """
            WITH given AS (
                SELECT 'Parcel' AS kind, p.year AS year, MAX(p.number) AS last, COUNT(*) AS known FROM parcel p
                    GROUP BY p.year
                UNION ALL
                SELECT 'Load', 0, MAX(l.number), COUNT(*) FROM freezer_load l HAVING COUNT(*) > 0)
            SELECT g.kind || ' numbers of ' || g.year, 'number ' || g.last, g.known || ' known'
            FROM given g
            WHERE g.last <> g.known + COALESCE((SELECT SUM(t.last - t.first + 1) FROM tags_lost t
                WHERE t.kind = g.kind AND (t.kind = 'Load' OR t.year = g.year) AND t.last < g.last), 0)
            UNION ALL
            SELECT 'counter of ' || c.kind, 'next is ' || c.next, 'not behind the last one'
            FROM tag_counter c
            WHERE c.next <> 1 + COALESCE((SELECT MAX(n.number) FROM (
                    SELECT 'Load' AS kind, 0 AS year, l.number AS number FROM freezer_load l
                    UNION ALL SELECT 'Parcel', p.year, p.number FROM parcel p
                    UNION ALL SELECT t.kind, t.year, t.last FROM tags_lost t) n
                WHERE n.kind = c.kind AND (n.kind = 'Load' OR n.year = c.year)), 0)
            """),
        ("Where each parcel stands", """
            SELECT 'parcel ' || p.tag, 'place ' || COALESCE(p.place_id, 0), 'place ' || COALESCE(e.place_id, 0)
            FROM parcel p
            LEFT JOIN parcel_place_entry e ON e.id = (SELECT MAX(x.id) FROM parcel_place_entry x
                WHERE x.parcel_id = p.id)
            WHERE COALESCE(p.place_id, 0) <> COALESCE(e.place_id, 0)
            ORDER BY p.id
            """),
    ];
}
