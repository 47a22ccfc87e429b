namespace Accession.Storage.Matching;

/// <summary>
/// The join of a batch's staged keys with those of the register and with those of the rows before it. A key that more
/// than 200 share is narrowed to those of the same day, and then to those of the same plant; what more than 200 before
/// a row still share with it is counted and not compared: of the rows of such a crowd only the foremost are joined.
/// Both databases speak this.
/// </summary>
internal static class MatchStatements
{
    private const string Staged =
        "FROM row_key r WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last AND NOT r.is_identity";

    // How each key of the staged rows is followed: by itself, with the day, with the plant, or not at all where too
    // many come before; of those who share an identity the first is enough. First of all, so that nobody begins
    // elsewhere.
    private const string Mine = """
        WITH mine AS MATERIALIZED (
            SELECT r.row_id, r."key" AS hash, r.line, r.day, r.detail,
                CASE WHEN r.is_identity THEN 4 WHEN w.hash IS NULL THEN 1 WHEN d.hash IS NULL THEN 2
                    WHEN c.row_id IS NOT NULL THEN 0 WHEN p.hash IS NULL THEN 3 ELSE 5 END AS way
            FROM row_key r
            LEFT JOIN wide_key w ON w.hash = r."key"
            LEFT JOIN wide_day d ON d.hash = r."key" AND d.day = r.day
            LEFT JOIN wide_detail p ON p.hash = r."key" AND p.day = r.day AND p.detail = r.detail
            LEFT JOIN crowded c ON c.row_id = r.row_id AND c.hash = r."key"
            WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last)
        """;

    /// <summary>Temporary tables of the connection; one that served before has them already.</summary>
    public const string Prepare = """
        DROP TABLE IF EXISTS wide_key;
        DROP TABLE IF EXISTS wide_day;
        DROP TABLE IF EXISTS wide_detail;
        DROP TABLE IF EXISTS crowded;
        DROP TABLE IF EXISTS foremost;
        CREATE TEMP TABLE wide_key (hash BIGINT PRIMARY KEY);
        CREATE TEMP TABLE wide_day (hash BIGINT, day INTEGER, PRIMARY KEY (hash, day));
        CREATE TEMP TABLE wide_detail (
            hash BIGINT, day INTEGER, detail INTEGER, held INTEGER, PRIMARY KEY (hash, day, detail));
        CREATE TEMP TABLE crowded (row_id BIGINT, hash BIGINT, others INTEGER, PRIMARY KEY (row_id, hash));
        CREATE TEMP TABLE foremost (
            hash BIGINT, day INTEGER, detail INTEGER, line INTEGER, row_id BIGINT,
            PRIMARY KEY (hash, day, detail, line, row_id))
        """;

    /// <summary>Fills them, each from those before it.</summary>
    public static readonly string[] Widths =
    [
        $"""
        INSERT INTO wide_key SELECT hash FROM (
            SELECT k."key" AS hash FROM gathering_key k WHERE k."key" IN (SELECT r."key" {Staged})
            UNION ALL
            SELECT o."key" FROM row_key o WHERE o.batch_id = @batch AND o."key" IN (SELECT r."key" {Staged})) both_kinds
        GROUP BY hash HAVING count(*) > 200
        """,
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

    /// <summary>The staged rows themselves.</summary>
    public const string Own = """
        SELECT s.row_id, s.signature FROM row_signature s
        WHERE s.row_id IN (
            SELECT r.row_id FROM row_key r WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last)
        """;

    /// <summary>
    /// Pairs of a staged row with a gathering, or with a row before it: row, gathering, other row, signature, and
    /// whether they meet in an identity.
    /// </summary>
    public static readonly string[] Joins =
    [
        $"""
        {Mine}
        SELECT met.row_id, met.other_id, NULL, s.signature, met.same_record
        FROM (
            SELECT row_id, other_id, max(same_record) AS same_record FROM (
                {Pairs("gathering_key o", "o.gathering_id", "o.\"key\" = r.hash", "3, 5")}
                UNION ALL
                SELECT r.row_id, f.first, 1 FROM mine r JOIN (
                    SELECT k."key" AS hash, min(k.gathering_id) AS first FROM gathering_key k
                    WHERE k."key" IN (SELECT hash FROM mine WHERE way = 4) GROUP BY k."key") f ON f.hash = r.hash
                WHERE r.way = 4
            ) pairs GROUP BY row_id, other_id) met
        JOIN gathering_signature s ON s.gathering_id = met.other_id
        """,
        $"""
        {Mine}
        SELECT met.row_id, NULL, met.other_id, s.signature, met.same_record
        FROM (
            SELECT row_id, other_id, max(same_record) AS same_record FROM (
                {Pairs("row_key o", "o.row_id", "o.batch_id = @batch AND o.\"key\" = r.hash AND +o.line < r.line", "3")}
                UNION ALL
                SELECT r.row_id, o.row_id, 0 FROM mine r CROSS JOIN foremost o
                WHERE r.way = 5 AND o.hash = r.hash AND o.day = r.day AND o.detail = r.detail AND o.line < r.line
                UNION ALL
                SELECT r.row_id, o.row_id, 1 FROM mine r JOIN (
                    SELECT k."key" AS hash, min(k.line) AS first FROM row_key k
                    WHERE k.batch_id = @batch AND k."key" IN (SELECT hash FROM mine WHERE way = 4) GROUP BY k."key") f
                    ON f.hash = r.hash AND f.first < r.line
                CROSS JOIN row_key o
                WHERE r.way = 4 AND o.batch_id = @batch AND o."key" = f.hash AND o.line = f.first
            ) pairs GROUP BY row_id, other_id) met
        JOIN row_signature s ON s.row_id = met.other_id
        """,
        """
        SELECT rec.row_id, rec.gathering_id, NULL, s.signature, 1
        FROM row_record rec JOIN gathering_signature s ON s.gathering_id = rec.gathering_id
        WHERE rec.row_id IN (
            SELECT r.row_id FROM row_key r WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last)
        """,
    ];

    /// <summary>How many share the narrowest key of a row with it, where that is too many.</summary>
    public const string Alike = """
        SELECT c.row_id, max(c.others) FROM crowded c
        WHERE c.row_id IN (
            SELECT r.row_id FROM row_key r WHERE r.batch_id = @batch AND r.line BETWEEN @first AND @last)
        GROUP BY c.row_id
        """;

    // A cross join keeps SQLite from beginning with the others, and the plus in what is met from searching by the line,
    // which all rows before a row would meet.
    private static string Pairs(string others, string id, string meet, string narrowest) => $"""
        SELECT r.row_id, {id} AS other_id, 0 AS same_record FROM mine r CROSS JOIN {others} WHERE r.way = 1 AND {meet}
        UNION ALL
        SELECT r.row_id, {id}, 0 FROM mine r CROSS JOIN {others} WHERE r.way = 2 AND {meet} AND o.day = r.day
        UNION ALL
        SELECT r.row_id, {id}, 0 FROM mine r CROSS JOIN {others}
            WHERE r.way IN ({narrowest}) AND {meet} AND o.day = r.day AND o.detail = r.detail
        """;
}
