using System.Globalization;

namespace Accession.Benchmarks;

/// <summary>
/// Rows of a register that never was, in SQL that both databases speak. Which word stands where follows from the row's
/// number and the seed by remainders of primes, so the same settings give the same register on both.
/// </summary>
internal static class InventedRows
{
    private const string NoVersion = "'00000000-0000-4000-8000-000000000000'";

    private static readonly (string Kind, string[] Words)[] Vocabulary =
    [
        ("given", ["A. B.", "C.", "D. E.", "F.", "G. H. I.", "Jo", "K.", "L. M.", "Nora", "O. P.", "Q."]),
        ("family", ["Quillfeather", "Oakhurst", "Dunmarsh", "Tarnley", "Fenwright", "Süderhof", "Vale-Orrin",
            "Brackwater", "Ashgrove", "Merrowdale", "Pinecastle", "Østerbrink", "Hollowell"]),
        ("genus", ["Poa", "Carex", "Juncus", "Phlox", "Salix", "Stipa", "Draba", "Lupinus", "Erigeron", "Penstemon"]),
        ("epithet", ["secunda", "nebrascensis", "balticus", "hoodii", "exigua", "comata", "verna", "lepidus", "pumilus",
            "speciosus", "deustus", "rydbergii", "aridus"]),
        ("author", ["J.Presl", "Dewey", "Willd.", "Richardson", "Nutt.", "Trin. & Rupr.", "L.", "Pursh", "Rydb."]),
        ("plant family", ["Poaceae", "Cyperaceae", "Juncaceae", "Polemoniaceae", "Salicaceae", "Asteraceae",
            "Fabaceae"]),
        ("county", ["Harney", "Malheur", "Lake", "Grant", "Baker", "Wallowa", "Crook"]),
        ("place", ["Dry Lakes Field Station", "Alder Creek", "Juniper Flat", "Cold Spring Ridge", "the old sheep camp",
            "Sagehen Butte", "Lower Heron Marsh", "Two Cairns Pass", "Whitehorse Rim"]),
        ("way", ["3 km above the ford on the east bank", "0.5 mi SW of the gate, below the rim",
            "at the junction of the track and the creek", "north-facing slope above the reservoir",
            "along the fence between the two meadows", "ca. 200 m upstream from the culvert"]),
        ("habitat", ["Sagebrush flat on silty bench with scattered juniper", "Moist meadow, alkaline, grazed",
            "Dry stony slope over basalt, full sun", "Streamside under alder, deep black soil",
            "Roadside, disturbed gravel", "Open pine forest, thin ash soil, burned some years ago"]),
        ("remark", ["Tufted, 30 cm; flowers white. Common.", "Herb 15 cm; fruits green; leaves strongly scented.",
            "Shrub to 1.5 m; one plant seen.", "Rhizomatous, forming large mats; spikes brown.", ""]),
    ];

    /// <summary>The file that the one list was; it is empty.</summary>
    public const string KeptList = "00000000000000000000000000000000";

    // FIPS 180-4, of no bytes at all.
    private const string EmptySha256 = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

    public static IEnumerable<string> Statements(BenchmarkSettings settings)
    {
        yield return "CREATE TEMP TABLE word (kind text, k int, text text)";
        yield return "INSERT INTO word VALUES " + string.Join(",", Vocabulary.SelectMany(group => group.Words.Select(
            (word, k) => $"('{group.Kind}', {k}, '{word}')")));
        yield return "CREATE UNIQUE INDEX word_key ON word (kind, k)";
        yield return "BEGIN";
        yield return $"""
            INSERT INTO act (id, actor_name, what, at) VALUES (1, 'Accession', 'invent', '2026-01-05 08:00:00+00:00');
            INSERT INTO source (id, name, folded_name, remembered_match) VALUES (1, 'Invented', 'invented', '');
            INSERT INTO batch (id, source_id, act_id, match, day_month_order, version)
                VALUES (1, 1, 1, '', 'DayFirst', {NoVersion});
            INSERT INTO received_list (id, batch_id, act_id, file_name, kept_as, sha256, bytes, format, headings,
                    date_evidence, is_read, added, changed, lines_not_read, rows, unchanged, withdrawn)
                VALUES (1, 1, 1, 'invented.csv', '{KeptList}', '{EmptySha256}', 0, 'CSV', '[]', '[]', true, 0, 0, 0, 0, 0, 0);
            INSERT INTO accession (id, number, batch_id, act_id, terms, sheets_on_list, sheets_in_pile, version)
                VALUES (1, '2026.0001', 1, 1, 'Gift', 0, 0, {NoVersion});
            INSERT INTO number_series (id, name, use, pattern, next, year)
                VALUES (1, 'Sheets', 'Specimens', 'BENCH-00000000', {settings.Specimens + 1}, 0);
            """;
        yield return $"""
            INSERT INTO batch_row (id, batch_id, first_list_id, last_list_id, line, identity, occurrence, pair_key,
                cells, sheets, open_problems)
            {Numbers(settings)}
            SELECT i, 1, 1, 1, i, 'row' || i, 1, '', '[]', 1, 0 FROM numbers
            """;
        yield return Gatherings(settings);
        yield return $"""
            INSERT INTO specimen (id, catalog_number, series_id, number, occurrence_id, gathering_id, act_id,
                current_name, version, find_text)
            {Numbers(settings)}
            SELECT i, 'BENCH-' || (10000000 + i), 1, i, 'urn:uuid:00000000-0000-4000-8000-' || (100000000000 + i), i, 1,
                '', {NoVersion}, {FindText} FROM numbers
            """;
        yield return Determinations(settings, times: 1, modulo: 1);
        yield return Determinations(settings, times: 2, modulo: 5);
        yield return Determinations(settings, times: 3, modulo: 5);
        yield return "COMMIT";
        if (settings.IsPostgreSql)
        {
            // Keys that were given do not move the counters from which the program takes its own.
            string[] tables = ["act", "source", "batch", "received_list", "batch_row", "accession", "number_series",
                "gathering", "specimen"];
            yield return string.Concat(tables.Select(table =>
                $"SELECT setval(pg_get_serial_sequence('{table}', 'id'), (SELECT max(id) FROM {table}));"));
        }
    }

    // About the words that the program would write, folded as far as these words need it.
    private static string FindText => $"""
        lower('bench ' || (10000000 + i) || ' ' || {Word("given", 7)} || ' ' || {Word("family", 11)} || ' '
            || {Pick(13, 9000)} || ' ' || {Word("genus", 74)} || ' ' || {Word("epithet", 80)} || ' '
            || ({Pick(23, 80)} + 1940) || ' ' || ({Pick(19, 3)} + 10) || ' united states of america oregon '
            || {Word("county", 37)} || ' ' || {Word("place", 41)} || ' ' || {Word("way", 43)} || ' '
            || {Word("habitat", 47)})
        """;

    private static string Gatherings(BenchmarkSettings settings) => $"""
        INSERT INTO gathering (id, accession_id, act_id, batch_row_id, protection, sheets_expected, sheets_numbered,
            version, collectors_verbatim, recorded_by, collector_key, record_number, number_key, date_verbatim,
            event_date, year, month, day, associated_taxa, name_verbatim, identification_qualifier, family,
            identified_by, date_identified_verbatim, date_identified, other_catalog_numbers, country, country_code,
            state_province, county, municipality, locality, habitat, remarks, coordinates_verbatim, latitude, longitude,
            coordinate_precision, uncertainty_in_meters, geodetic_datum, elevation_verbatim,
            minimum_elevation_in_meters, maximum_elevation_in_meters,
            data_generalizations, information_withheld, county_key)
        {Numbers(settings)}
        SELECT i, 1, 1, i, 'NotSensitive', 1, 1, {NoVersion},
            {Word("given", 7)} || ' ' || {Word("family", 11)}, {Word("given", 7)} || ' ' || {Word("family", 11)}, '',
            '' || {Pick(13, 9000)}, '',
            ({Pick(17, 18)} + 10) || '.' || ({Pick(19, 3)} + 10) || '.' || ({Pick(23, 80)} + 1940),
            ({Pick(23, 80)} + 1940) || '-' || ({Pick(19, 3)} + 10) || '-' || ({Pick(17, 18)} + 10),
            {Pick(23, 80)} + 1940, {Pick(19, 3)} + 10, {Pick(17, 18)} + 10,
            {Word("genus", 29)} || ', ' || {Word("genus", 31)}, '', '', '', '', '', '', '',
            'United States of America', 'US', 'Oregon', {Word("county", 37)}, '',
            {Word("place", 41)} || ', ' || {Word("way", 43)}, {Word("habitat", 47)}, {Word("remark", 53)},
            '43°' || {Pick(59, 60)} || ''' N 118°' || {Pick(61, 60)} || ''' W',
            round(42 + {Pick(59, 39999)} / 10000.0, 4), round(-121 + {Pick(61, 39999)} / 10000.0, 4), 0.0001,
            {Pick(67, 20)} * 50 + 25, 'WGS84', ({Pick(71, 2000)} + 900) || ' m', {Pick(71, 2000)} + 900,
            {Pick(71, 2000)} + 900, '', '', 'oregon/' || lower({Word("county", 37)})
        FROM numbers
        """;

    // The first name of each specimen, and two more for every fifth: 1.4 on average.
    private static string Determinations(BenchmarkSettings settings, int times, int modulo) => $"""
        INSERT INTO determination (specimen_id, act_id, name, qualifier, family, identified_by, date_identified)
        {Numbers(settings)}
        SELECT i, 1,
            {Word("genus", 73 + times)} || ' ' || {Word("epithet", 79 + times)} || ' ' || {Word("author", 83)}, '',
            {Word("plant family", 89)}, {Word("given", 97)} || ' ' || {Word("family", 101)},
            '' || ({Pick(103, 60)} + 1960)
        FROM numbers WHERE i % {modulo} = 0
        """;

    private static string Numbers(BenchmarkSettings settings) => string.Create(
        CultureInfo.InvariantCulture,
        $"""
        WITH RECURSIVE numbers (i) AS (
            SELECT CAST(1 AS bigint) UNION ALL SELECT i + 1 FROM numbers WHERE i < {settings.Specimens}),
        seed (s) AS (SELECT CAST({settings.Seed} AS bigint))
        """);

    // The salt is a small prime; it decides the way in which the rows go through the choices.
    private static string Pick(int salt, int choices) =>
        $"(((i * {salt * 7919} + (SELECT s FROM seed) * 104729) % 1000003) % {choices})";

    private static string Word(string kind, int salt)
    {
        var choices = Vocabulary.Single(group => group.Kind == kind).Words.Length;
        return $"(SELECT text FROM word WHERE kind = '{kind}' AND k = {Pick(salt, choices)})";
    }
}
