namespace Accession.Storage.Matching;

/// <summary>
/// The join of a batch's staged keys with those of the register and with those of the rows before it, some thousand
/// rows at once and in the order of the keys: neighbours in an index are asked for one after the other. A key that more
/// than 200 share is narrowed to those of the same day, and then to those of the same plant; what more than 200 before
/// a row still share with it is counted and not compared: of the rows of such a crowd only the foremost are joined.
/// Both databases speak this.
/// </summary>
internal static class MatchStatements
{
    /// <summary>Temporary tables of the connection; one that served before has them already.</summary>
    public const string Prepare = """
        DROP TABLE IF EXISTS wide_key;
        DROP TABLE IF EXISTS wide_day;
        DROP TABLE IF EXISTS wide_detail;
        DROP TABLE IF EXISTS crowded;
        DROP TABLE IF EXISTS foremost;
        DROP TABLE IF EXISTS mine;
        DROP TABLE IF EXISTS met;
        CREATE TEMP TABLE wide_key (hash BIGINT PRIMARY KEY);
        CREATE TEMP TABLE wide_day (hash BIGINT, day INTEGER, PRIMARY KEY (hash, day));
        CREATE TEMP TABLE wide_detail (
            hash BIGINT, day INTEGER, detail INTEGER, held INTEGER, PRIMARY KEY (hash, day, detail));
        CREATE TEMP TABLE crowded (row_id BIGINT, hash BIGINT, others INTEGER, PRIMARY KEY (row_id, hash));
        CREATE TEMP TABLE foremost (
            hash BIGINT, day INTEGER, detail INTEGER, line INTEGER, row_id BIGINT,
            PRIMARY KEY (hash, day, detail, line, row_id));
        CREATE TEMP TABLE mine (
            hash BIGINT, row_id BIGINT, line INTEGER, day INTEGER, detail INTEGER, way INTEGER);
        CREATE TEMP TABLE met (
            row_id BIGINT, gathering_id BIGINT, other_row_id BIGINT, by_record INTEGER, same_record INTEGER,
            PRIMARY KEY (row_id, gathering_id, other_row_id, by_record))
        """;

    /// <summary>Fills the first for the keys of these lines.</summary>
    public static string WideKeys(Lines lines) => $"""
        INSERT INTO wide_key SELECT hash FROM (
            SELECT r."key" AS hash, count(*) AS staged FROM row_key r
            WHERE r.batch_id = @batch {(lines == Lines.All ? "" : OfTheseLines)} GROUP BY r."key") shared
        WHERE staged + (
                SELECT count(*) FROM (SELECT 1 FROM gathering_key k WHERE k."key" = shared.hash LIMIT 201) held) > 200
            AND NOT EXISTS (
                SELECT 1 FROM row_key i WHERE i.batch_id = @batch AND i."key" = shared.hash AND i.is_identity)
        """;

    private const string OfTheseLines = """
        AND r."key" IN (SELECT l."key" FROM row_key l WHERE l.batch_id = @batch AND l.line BETWEEN @first AND @last)
        """;

    /// <summary>Fills the others, each from those before it.</summary>
    public static readonly string[] Widths =
    [
        """
        INSERT INTO wide_day SELECT hash, day FROM (
            SELECT k."key" AS hash, k.day FROM gathering_key k JOIN wide_key w ON w.hash = k."key"
            UNION ALL
            SELECT o."key", o.day FROM row_key o JOIN wide_key w ON w.hash = o."key"
            WHERE o.batch_id = @batch) both_kinds
        GROUP BY hash, day HAVING count(*) > 200
        """,
        """
        INSERT INTO wide_detail SELECT hash, day, detail, sum(held) FROM (
            SELECT k."key" AS hash, k.day, k.detail, 1 AS held FROM gathering_key k
            JOIN wide_day w ON w.hash = k."key" AND w.day = k.day
            UNION ALL
            SELECT o."key", o.day, o.detail, 0 FROM row_key o JOIN wide_day w ON w.hash = o."key" AND w.day = o.day
            WHERE o.batch_id = @batch) both_kinds
        GROUP BY hash, day, detail HAVING count(*) > 200
        """,
        """
        INSERT INTO crowded SELECT row_id, hash, others FROM (
            SELECT r.row_id, r."key" AS hash, r.line, w.held - 1 + row_number() OVER (
                PARTITION BY r."key", r.day, r.detail ORDER BY r.line, r.row_id) AS others
            FROM row_key r JOIN wide_detail w ON w.hash = r."key" AND w.day = r.day AND w.detail = r.detail
            WHERE r.batch_id = @batch) ranked
        WHERE others > 200 AND line BETWEEN @first AND @last
        """,
        """
        INSERT INTO foremost SELECT hash, day, detail, line, row_id FROM (
            SELECT r."key" AS hash, r.day, r.detail, r.line, r.row_id, w.held - 1 + row_number() OVER (
                PARTITION BY r."key", r.day, r.detail ORDER BY r.line, r.row_id) AS others
            FROM row_key r JOIN wide_detail w ON w.hash = r."key" AND w.day = r.day AND w.detail = r.detail
            WHERE r.batch_id = @batch) ranked
        WHERE others <= 200
        """,
    ];

    /// <summary>
    /// Fills the table of what is joined: how each key of the staged rows is followed, by itself, with the day, with
    /// the plant, or not at all where too many come before; of those who share an identity the first is enough.
    /// </summary>
    public const string Mine = """
        DELETE FROM mine;
        INSERT INTO mine
            SELECT r."key", r.row_id, r.line, r.day, r.detail,
                CASE WHEN r.is_identity THEN 4 WHEN w.hash IS NULL THEN 1 WHEN d.hash IS NULL THEN 2
                    WHEN c.row_id IS NOT NULL THEN 0 WHEN p.hash IS NULL THEN 3 ELSE 5 END
            FROM row_key r
            LEFT JOIN wide_key w ON w.hash = r."key"
            LEFT JOIN wide_day d ON d.hash = r."key" AND d.day = r.day
            LEFT JOIN wide_detail p ON p.hash = r."key" AND p.day = r.day AND p.detail = r.detail
            LEFT JOIN crowded c ON c.row_id = r.row_id AND c.hash = r."key"
            WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last
            ORDER BY r."key"
        """;

    /// <summary>
    /// Fills the table of pairs of a staged row with a gathering, or with a row before it, and whether they meet in an
    /// identity. What is missing of gathering and other row is 0.
    /// </summary>
    public static readonly string Met = $"""
        DELETE FROM met;
        INSERT INTO met SELECT row_id, gathering_id, other_row_id, by_record, max(same_record) FROM (
            {Pairs("gathering_key o", "o.gathering_id", "0", "o.\"key\" = r.hash", "3, 5")}
            UNION ALL
            SELECT r.row_id, f.first, 0, 0, 1 FROM mine r JOIN (
                SELECT k."key" AS hash, min(k.gathering_id) AS first FROM gathering_key k
                WHERE k."key" IN (SELECT hash FROM mine WHERE way = 4) GROUP BY k."key") f ON f.hash = r.hash
            WHERE r.way = 4
            UNION ALL
            {Pairs("row_key o", "0", "o.row_id", Before, "3")}
            UNION ALL
            SELECT r.row_id, 0, o.row_id, 0, 0 FROM mine r CROSS JOIN foremost o
            WHERE r.way = 5 AND o.hash = r.hash AND o.day = r.day AND o.detail = r.detail AND o.line < r.line
            UNION ALL
            SELECT r.row_id, 0, o.row_id, 0, 1 FROM mine r JOIN (
                SELECT k."key" AS hash, min(k.line) AS first FROM row_key k
                WHERE k.batch_id = @batch AND k."key" IN (SELECT hash FROM mine WHERE way = 4) GROUP BY k."key") f
                ON f.hash = r.hash AND f.first < r.line
            CROSS JOIN row_key o
            WHERE r.way = 4 AND o.batch_id = @batch AND o."key" = f.hash AND o.line = f.first
            UNION ALL
            SELECT e.row_id, e.gathering_id, 0, 1, 1 FROM row_record e WHERE e.row_id IN (SELECT row_id FROM mine)
        ) pairs GROUP BY row_id, gathering_id, other_row_id, by_record
        """;

    /// <summary>
    /// The staged rows themselves, and how many share the narrowest key of each with it where that is too many.
    /// </summary>
    public const string Own = """
        SELECT s.row_id, s.signature, (SELECT coalesce(max(c.others), 0) FROM crowded c WHERE c.row_id = s.row_id)
        FROM row_signature s WHERE s.row_id IN (SELECT row_id FROM mine) ORDER BY s.row_id
        """;

    /// <summary>The pairs in the order of the rows, with what is compared.</summary>
    public const string Pair = """
        SELECT m.row_id, m.gathering_id, m.other_row_id, m.same_record, coalesce(g.signature, o.signature)
        FROM met m
        LEFT JOIN gathering_signature g ON g.gathering_id = m.gathering_id
        LEFT JOIN row_signature o ON o.row_id = m.other_row_id
        ORDER BY m.row_id, m.gathering_id, m.other_row_id
        """;

    // The plus keeps SQLite from searching by the line, which all rows before a row would meet. That it is not the row
    // itself is seen in the index, and most keys are of one row alone.
    private const string Before =
        "o.batch_id = @batch AND o.\"key\" = r.hash AND o.row_id <> r.row_id AND +o.line < r.line";

    // A cross join keeps SQLite from beginning with the others.
    private static string Pairs(string others, string gathering, string row, string meet, string narrowest) => $"""
        SELECT r.row_id, {gathering} AS gathering_id, {row} AS other_row_id, 0 AS by_record, 0 AS same_record
            FROM mine r CROSS JOIN {others} WHERE r.way = 1 AND {meet}
        UNION ALL
        SELECT r.row_id, {gathering}, {row}, 0, 0 FROM mine r CROSS JOIN {others}
            WHERE r.way = 2 AND {meet} AND o.day = r.day
        UNION ALL
        SELECT r.row_id, {gathering}, {row}, 0, 0 FROM mine r CROSS JOIN {others}
            WHERE r.way IN ({narrowest}) AND {meet} AND o.day = r.day AND o.detail = r.detail
        """;
}
