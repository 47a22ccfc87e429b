using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// A role that may read what everyone may know and nothing else. Whoever makes something public reads under it, so that
/// the database refuses a statement that reaches further. It guards against slips, not against a statement that was
/// smuggled in: that one could take its own role back.
/// </summary>
internal sealed class PostgreSqlPublicRole(string name)
{
    // Named one by one, and not made from the queries: a query that asks for more is what is to be refused.
    private static readonly (string Table, string[] Columns)[] Public =
    [
        ("specimen", ["id", "gathering_id", "occurrence_id", "catalog_number", "current_determination_id"]),
        ("determination",
            ["id", "specimen_id", "name", "qualifier", "identified_by", "date_identified", "family", "kind"]),
        ("gathering",
        [
            "id", "information_withheld", "data_generalizations", "event_date", "year", "month", "day", "date_verbatim",
            "habitat", "country", "country_code", "state_province", "county", "municipality", "locality",
            "minimum_elevation_in_meters", "maximum_elevation_in_meters", "elevation_verbatim", "latitude", "longitude",
            "geodetic_datum", "uncertainty_in_meters", "coordinate_precision", "coordinates_verbatim",
            "other_catalog_numbers", "record_number", "recorded_by", "associated_taxa", "remarks",
        ]),
    ];

    private const string Unfit = """
        SELECT CASE
            WHEN r.rolsuper THEN 'is a superuser, whom nothing is refused'
            WHEN r.rolbypassrls THEN 'has BYPASSRLS, more than reading needs'
            WHEN pg_has_role(r.oid, current_user, 'MEMBER') THEN 'is the role that signs in, or has its rights'
            ELSE '' END
        FROM pg_roles r WHERE r.rolname = $1
        """;

    // The rights that count, from wherever they come: granted to the role, to a role it belongs to, or to PUBLIC.
    private const string TooMuch = """
        SELECT c.relname, coalesce(has_any_column_privilege('public', c.oid, 'SELECT, INSERT, UPDATE, REFERENCES')
            OR has_table_privilege('public', c.oid, 'DELETE, TRUNCATE, TRIGGER'), false)
        FROM pg_class c
        WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind IN ('r', 'p', 'v', 'm', 'f')
            AND (has_any_column_privilege($1, c.oid, 'INSERT, UPDATE, REFERENCES')
                OR has_table_privilege($1, c.oid, 'DELETE, TRUNCATE, TRIGGER')
                OR EXISTS (SELECT FROM pg_attribute a
                    WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
                        AND NOT c.relname || '.' || a.attname = ANY ($2)
                        AND has_column_privilege($1, c.oid, a.attnum, 'SELECT')))
        ORDER BY c.relname <> 'exact_locality', c.relname
        LIMIT 1
        """;

    private readonly string _quoted = $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    /// <summary>Goes over to the role until the transaction ends.</summary>
    public async Task EnterAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand($"SET LOCAL ROLE {_quoted}", connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    /// <summary>Gives the role its rights and takes all others away; says why it cannot be used, or null.</summary>
    public async Task<string?> GrantAsync(AccessionDb db, CancellationToken cancellation)
    {
        // One transaction: whoever reads under the role on another node finds the old rights or the new ones.
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var connection = (NpgsqlConnection)db.Database.GetDbConnection();
        if (await WhyUnfitAsync(connection, cancellation) is { } unfit)
        {
            return unfit;
        }

        await using (var grant = new NpgsqlCommand(Rights(await SchemaAsync(connection, cancellation)), connection))
        {
            await grant.ExecuteNonQueryAsync(cancellation);
        }

        if (await WhyTooMuchAsync(connection, cancellation) is { } tooMuch)
        {
            return tooMuch;
        }

        try
        {
            await EnterAsync(connection, cancellation);
        }
        catch (PostgresException refused) when (refused.SqlState == PostgresErrorCodes.InsufficientPrivilege)
        {
            return $"The role that signs in is no member of {name}; GRANT {_quoted} TO it.";
        }

        await ResetAsync(connection, cancellation);
        await transaction.CommitAsync(cancellation);
        return null;
    }

    private async Task<string?> WhyUnfitAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand(Unfit, connection) { Parameters = { new() { Value = name } } };
        return await command.ExecuteScalarAsync(cancellation) switch
        {
            null => $"There is no role {name}; make it with CREATE ROLE {_quoted} NOLOGIN.",
            "" => null,
            var reason => $"The role {name} {reason}; name one of its own, made with CREATE ROLE … NOLOGIN.",
        };
    }

    private async Task<string?> WhyTooMuchAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        string[] allowed = [.. Public.SelectMany(table => table.Columns.Select(column => $"{table.Table}.{column}"))];
        await using var command = new NpgsqlCommand(TooMuch, connection)
        {
            Parameters = { new() { Value = name }, new() { Value = allowed } },
        };
        await using var found = await command.ExecuteReaderAsync(cancellation);
        if (!await found.ReadAsync(cancellation))
        {
            return null;
        }

        var (table, everybody) = (found.GetString(0), found.GetBoolean(1));
        return everybody
            ? $"Every role of the database has rights on {table}; REVOKE ALL ON \"{table}\" FROM PUBLIC."
            : $"The role {name} has rights on {table} not given here; take them, or its other roles, away.";
    }

    private string Rights(string schema)
    {
        var columns = Public.Select(table =>
            $"GRANT SELECT ({string.Join(", ", table.Columns)}) ON {schema}.{table.Table} TO {_quoted};");
        return $"""
            REVOKE ALL ON {schema}.exact_locality FROM {_quoted};
            REVOKE ALL ON ALL TABLES IN SCHEMA {schema} FROM {_quoted};
            REVOKE ALL ON ALL SEQUENCES IN SCHEMA {schema} FROM {_quoted};
            GRANT USAGE ON SCHEMA {schema} TO {_quoted};
            {string.Join('\n', columns)}
            """;
    }

    private static async Task<string> SchemaAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand("SELECT quote_ident(current_schema())", connection);
        return (string)(await command.ExecuteScalarAsync(cancellation))!;
    }

    private static async Task ResetAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand("RESET ROLE", connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
