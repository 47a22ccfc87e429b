using DuckDB.NET.Data;

namespace Accession.Benchmarks.Matching;

/// <summary>
/// What a good analyst would write in an afternoon: the list parsed by regular expressions, joined by family name and
/// number, number and day, family name and day, and scored by Jaro-Winkler, all set-based in DuckDB with two threads. Its
/// register is parsed beforehand, as the program's is.
/// </summary>
internal sealed class DuckDbPeer(string folder, string list) : IDisposable
{
    private const string Parsed = """
        SELECT id,
            replace(strip_accents(lower(CASE WHEN contains(person, ',') THEN split_part(person, ',', 1)
                ELSE regexp_extract(person, '((?:(?:van|de|von|der|den|la) )*\S+)$', 1, 'i') END)), ' ', '') AS family,
            lower(left(CASE WHEN contains(person, ',') THEN trim(split_part(person, ',', 2)) ELSE person END, 1)) AS initial,
            try_cast(regexp_extract(number, '(\d+)', 1) AS integer) AS number,
            try_strptime(date, ['%Y-%m-%d', '%d %B %Y', '%d %b %Y'])::date AS day, lower(locality) AS locality,
            lower(species) AS species
        FROM (SELECT *, trim(split_part(collector, ' & ', 1)) AS person FROM raw)
        """;

    private readonly DuckDBConnection _connection = Open(Path.Combine(folder, "peer.duckdb"));

    public void Hold(InventedLabels labels, int specimens)
    {
        Execute("CREATE TABLE raw (id bigint, collector text, number text, date text, locality text, species text)");
        using (var appender = _connection.CreateAppender("raw"))
        {
            for (var i = 0; i < specimens; i++)
            {
                var cells = labels.Of(i).AsHeld();
                appender.CreateRow().AppendValue((long)i).AppendValue(cells[0]).AppendValue(cells[1])
                    .AppendValue(cells[2]).AppendValue(cells[6]).AppendValue(cells[11]).EndRow();
            }
        }

        Execute($"CREATE TABLE held AS {Parsed}; DROP TABLE raw; CHECKPOINT");
    }

    /// <summary>Reads the list, joins, scores, and writes the findings to a table.</summary>
    public void Find()
    {
        Execute($"""
            CREATE OR REPLACE TABLE found (row_id bigint, gathering_id bigint, other_row_id bigint, score double);
            CREATE OR REPLACE TEMP TABLE raw AS SELECT row_number() OVER () - 1 AS id, "Collector" AS collector,
                "Number" AS number, "Date" AS date, "Locality" AS locality, "Species" AS species
            FROM read_csv('{list}', header = true, all_varchar = true);
            CREATE OR REPLACE TEMP TABLE incoming AS {Parsed}
            """);
        Execute(Found("held", "gathering_id", "true"));
        Execute(Found("incoming", "other_row_id", "o.id < r.id"));
    }

    /// <summary>What it found of each row in the register.</summary>
    public IEnumerable<(int Row, long Gathering)> Findings()
    {
        using var command = _connection.CreateCommand();
        command.CommandText = "SELECT row_id, gathering_id FROM found WHERE gathering_id IS NOT NULL";
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return ((int)reader.GetInt64(0), reader.GetInt64(1));
        }
    }

    public void Dispose() => _connection.Dispose();

    // Numbers that are both there and differ refuse, as do initials.
    private static string Found(string others, string column, string condition)
    {
        string Blocked(string key) => $"""
            SELECT r.id AS row_id, o.id AS other_id FROM incoming r JOIN {others} o USING ({key}) WHERE {condition}
            """;
        return $"""
            INSERT INTO found (row_id, {column}, score)
            SELECT row_id, other_id, score FROM (
                SELECT row_id, other_id,
                    jaro_winkler_similarity(r.family, o.family) * 2 + (r.number = o.number)::integer * 2
                    + coalesce((r.day = o.day)::integer, 0) + jaro_winkler_similarity(r.locality, o.locality)
                    + (r.species = o.species)::integer AS score
                FROM (
                    {Blocked("family, number")} UNION {Blocked("number, day")} UNION {Blocked("family, day")}) pair
                JOIN incoming r ON r.id = pair.row_id
                JOIN {others} o ON o.id = pair.other_id
                WHERE r.number = o.number AND r.initial = o.initial)
            WHERE score >= 5
            """;
    }

    private static DuckDBConnection Open(string file)
    {
        var connection = new DuckDBConnection($"Data Source={file}");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SET threads = 2";
        command.ExecuteNonQuery();
        return connection;
    }

    private void Execute(string sql)
    {
        using var command = _connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
