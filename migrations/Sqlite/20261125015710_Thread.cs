using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Thread : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "act",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    actor_id = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true),
                    actor_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    reason = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: true),
                    request_key = table.Column<string>(type: "TEXT", maxLength: 80, nullable: true),
                    answer = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_act", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_roles",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    concurrency_stamp = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_roles", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_users",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    display_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    password_hash = table.Column<string>(type: "TEXT", nullable: true),
                    security_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    concurrency_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    phone_number = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    access_failed_count = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_users", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "data_protection_keys",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    friendly_name = table.Column<string>(type: "TEXT", nullable: true),
                    xml = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_data_protection_keys", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "number_series",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    use = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    pattern = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    next = table.Column<long>(type: "INTEGER", nullable: false),
                    year = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_number_series", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "source",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    folded_name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    remembered_match = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_source", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "work",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    subject = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    owner = table.Column<string>(type: "TEXT", maxLength: 80, nullable: true),
                    lease_until = table.Column<DateTime>(type: "TEXT", nullable: true),
                    attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    done = table.Column<long>(type: "INTEGER", nullable: false),
                    total = table.Column<long>(type: "INTEGER", nullable: false),
                    finished_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    failure = table.Column<string>(type: "TEXT", nullable: true),
                    result = table.Column<string>(type: "TEXT", nullable: true),
                    wanted_at = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_work", x => x.id);
                    table.ForeignKey(
                        name: "fk_work_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_role_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    role_id = table.Column<string>(type: "TEXT", nullable: false),
                    claim_type = table.Column<string>(type: "TEXT", nullable: true),
                    claim_value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_role_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_asp_net_role_claims_asp_net_roles_role_id",
                        column: x => x.role_id,
                        principalTable: "asp_net_roles",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    user_id = table.Column<string>(type: "TEXT", nullable: false),
                    claim_type = table.Column<string>(type: "TEXT", nullable: true),
                    claim_value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_asp_net_user_claims_asp_net_users_user_id",
                        column: x => x.user_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_logins",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    provider_key = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    provider_display_name = table.Column<string>(type: "TEXT", nullable: true),
                    user_id = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_logins", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_asp_net_user_logins_asp_net_users_user_id",
                        column: x => x.user_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_passkeys",
                columns: table => new
                {
                    credential_id = table.Column<byte[]>(type: "BLOB", maxLength: 1024, nullable: false),
                    user_id = table.Column<string>(type: "TEXT", nullable: false),
                    Data = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_passkeys", x => x.credential_id);
                    table.ForeignKey(
                        name: "fk_asp_net_user_passkeys_asp_net_users_user_id",
                        column: x => x.user_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_roles",
                columns: table => new
                {
                    user_id = table.Column<string>(type: "TEXT", nullable: false),
                    role_id = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_roles", x => new { x.user_id, x.role_id });
                    table.ForeignKey(
                        name: "fk_asp_net_user_roles_asp_net_roles_role_id",
                        column: x => x.role_id,
                        principalTable: "asp_net_roles",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_asp_net_user_roles_asp_net_users_user_id",
                        column: x => x.user_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_tokens",
                columns: table => new
                {
                    user_id = table.Column<string>(type: "TEXT", nullable: false),
                    login_provider = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_tokens", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_asp_net_user_tokens_asp_net_users_user_id",
                        column: x => x.user_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sign_in_link",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    token_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    account_id = table.Column<string>(type: "TEXT", nullable: false),
                    expires_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    used_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sign_in_link", x => x.id);
                    table.ForeignKey(
                        name: "fk_sign_in_link_asp_net_users_account_id",
                        column: x => x.account_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "roll",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    series_id = table.Column<long>(type: "INTEGER", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    first_number = table.Column<long>(type: "INTEGER", nullable: false),
                    last_number = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_roll", x => x.id);
                    table.ForeignKey(
                        name: "fk_roll_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_roll_number_series_series_id",
                        column: x => x.series_id,
                        principalTable: "number_series",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "batch",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    source_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    match = table.Column<string>(type: "TEXT", nullable: false),
                    day_month_order = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    joined_to_batch_id = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_batch", x => x.id);
                    table.ForeignKey(
                        name: "fk_batch_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_batch_batch_joined_to_batch_id",
                        column: x => x.joined_to_batch_id,
                        principalTable: "batch",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_batch_source_source_id",
                        column: x => x.source_id,
                        principalTable: "source",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "accession",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    number = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    terms = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    conditions = table.Column<string>(type: "TEXT", nullable: true),
                    condition_on_arrival = table.Column<string>(type: "TEXT", nullable: true),
                    hazards = table.Column<string>(type: "TEXT", nullable: true),
                    sheets_on_list = table.Column<int>(type: "INTEGER", nullable: false),
                    sheets_in_pile = table.Column<int>(type: "INTEGER", nullable: false),
                    count_note = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_accession", x => x.id);
                    table.ForeignKey(
                        name: "fk_accession_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_accession_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "received_list",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    file_name = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    kept_as = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    format = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    headings = table.Column<string>(type: "TEXT", nullable: false),
                    date_evidence = table.Column<string>(type: "TEXT", nullable: false),
                    is_read = table.Column<bool>(type: "INTEGER", nullable: false),
                    refused_because = table.Column<string>(type: "TEXT", nullable: true),
                    added = table.Column<int>(type: "INTEGER", nullable: false),
                    changed = table.Column<int>(type: "INTEGER", nullable: false),
                    lines_not_read = table.Column<int>(type: "INTEGER", nullable: false),
                    rows = table.Column<int>(type: "INTEGER", nullable: false),
                    unchanged = table.Column<int>(type: "INTEGER", nullable: false),
                    withdrawn = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_received_list", x => x.id);
                    table.ForeignKey(
                        name: "fk_received_list_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_received_list_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "batch_row",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    first_list_id = table.Column<long>(type: "INTEGER", nullable: false),
                    last_list_id = table.Column<long>(type: "INTEGER", nullable: false),
                    line = table.Column<int>(type: "INTEGER", nullable: false),
                    identity = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    occurrence = table.Column<int>(type: "INTEGER", nullable: false),
                    pair_key = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    cells = table.Column<string>(type: "TEXT", nullable: false),
                    sheets = table.Column<int>(type: "INTEGER", nullable: false),
                    open_problems = table.Column<int>(type: "INTEGER", nullable: false),
                    taken_as_written_act_id = table.Column<long>(type: "INTEGER", nullable: true),
                    superseded_by_id = table.Column<long>(type: "INTEGER", nullable: true),
                    withdrawn_in_list_id = table.Column<long>(type: "INTEGER", nullable: true),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_batch_row", x => x.id);
                    table.ForeignKey(
                        name: "fk_batch_row_act_taken_as_written_act_id",
                        column: x => x.taken_as_written_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_batch_row_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_batch_row_batch_row_superseded_by_id",
                        column: x => x.superseded_by_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_batch_row_received_list_first_list_id",
                        column: x => x.first_list_id,
                        principalTable: "received_list",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_batch_row_received_list_last_list_id",
                        column: x => x.last_list_id,
                        principalTable: "received_list",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_batch_row_received_list_withdrawn_in_list_id",
                        column: x => x.withdrawn_in_list_id,
                        principalTable: "received_list",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "gathering",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    accession_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    batch_row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    protection = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    sheets_expected = table.Column<int>(type: "INTEGER", nullable: false),
                    sheets_numbered = table.Column<int>(type: "INTEGER", nullable: false),
                    version = table.Column<Guid>(type: "TEXT", nullable: false),
                    associated_taxa = table.Column<string>(type: "TEXT", nullable: false),
                    collector_key = table.Column<string>(type: "TEXT", nullable: false),
                    collectors_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    date_identified = table.Column<string>(type: "TEXT", nullable: false),
                    date_identified_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    date_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    day = table.Column<int>(type: "INTEGER", nullable: true),
                    event_date = table.Column<string>(type: "TEXT", nullable: false),
                    family = table.Column<string>(type: "TEXT", nullable: false),
                    identification_qualifier = table.Column<string>(type: "TEXT", nullable: false),
                    identified_by = table.Column<string>(type: "TEXT", nullable: false),
                    month = table.Column<int>(type: "INTEGER", nullable: true),
                    name_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    number_key = table.Column<string>(type: "TEXT", nullable: false),
                    other_catalog_numbers = table.Column<string>(type: "TEXT", nullable: false),
                    record_number = table.Column<string>(type: "TEXT", nullable: false),
                    recorded_by = table.Column<string>(type: "TEXT", nullable: false),
                    year = table.Column<int>(type: "INTEGER", nullable: true),
                    coordinate_precision = table.Column<double>(type: "REAL", nullable: true),
                    coordinates_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    country = table.Column<string>(type: "TEXT", nullable: false),
                    country_code = table.Column<string>(type: "TEXT", nullable: false),
                    county = table.Column<string>(type: "TEXT", nullable: false),
                    data_generalizations = table.Column<string>(type: "TEXT", nullable: false),
                    elevation_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    geodetic_datum = table.Column<string>(type: "TEXT", nullable: false),
                    habitat = table.Column<string>(type: "TEXT", nullable: false),
                    information_withheld = table.Column<string>(type: "TEXT", nullable: false),
                    latitude = table.Column<double>(type: "REAL", nullable: true),
                    locality = table.Column<string>(type: "TEXT", nullable: false),
                    longitude = table.Column<double>(type: "REAL", nullable: true),
                    maximum_elevation_in_meters = table.Column<double>(type: "REAL", nullable: true),
                    minimum_elevation_in_meters = table.Column<double>(type: "REAL", nullable: true),
                    municipality = table.Column<string>(type: "TEXT", nullable: false),
                    remarks = table.Column<string>(type: "TEXT", nullable: false),
                    state_province = table.Column<string>(type: "TEXT", nullable: false),
                    uncertainty_in_meters = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_gathering", x => x.id);
                    table.ForeignKey(
                        name: "fk_gathering_accession_accession_id",
                        column: x => x.accession_id,
                        principalTable: "accession",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_gathering_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_gathering_batch_row_batch_row_id",
                        column: x => x.batch_row_id,
                        principalTable: "batch_row",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "row_problem",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    list_id = table.Column<long>(type: "INTEGER", nullable: false),
                    row_id = table.Column<long>(type: "INTEGER", nullable: true),
                    line = table.Column<int>(type: "INTEGER", nullable: false),
                    column_name = table.Column<string>(type: "TEXT", maxLength: 201, nullable: false),
                    from_file = table.Column<bool>(type: "INTEGER", nullable: false),
                    text = table.Column<string>(type: "TEXT", maxLength: 600, nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: false),
                    blocks = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_row_problem", x => x.id);
                    table.ForeignKey(
                        name: "fk_row_problem_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_row_problem_batch_row_row_id",
                        column: x => x.row_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_row_problem_received_list_list_id",
                        column: x => x.list_id,
                        principalTable: "received_list",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "exact_locality",
                columns: table => new
                {
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    municipality = table.Column<string>(type: "TEXT", nullable: false),
                    locality = table.Column<string>(type: "TEXT", nullable: false),
                    habitat = table.Column<string>(type: "TEXT", nullable: false),
                    remarks = table.Column<string>(type: "TEXT", nullable: false),
                    coordinates_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    latitude = table.Column<double>(type: "REAL", nullable: true),
                    longitude = table.Column<double>(type: "REAL", nullable: true),
                    coordinate_precision = table.Column<double>(type: "REAL", nullable: true),
                    uncertainty_in_meters = table.Column<double>(type: "REAL", nullable: true),
                    elevation_verbatim = table.Column<string>(type: "TEXT", nullable: false),
                    minimum_elevation_in_meters = table.Column<double>(type: "REAL", nullable: true),
                    maximum_elevation_in_meters = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_exact_locality", x => x.gathering_id);
                    table.ForeignKey(
                        name: "fk_exact_locality_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "locality_protection",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    category = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    review_on = table.Column<DateOnly>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_locality_protection", x => x.id);
                    table.ForeignKey(
                        name: "fk_locality_protection_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_locality_protection_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "specimen",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    catalog_number = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    series_id = table.Column<long>(type: "INTEGER", nullable: false),
                    number = table.Column<long>(type: "INTEGER", nullable: false),
                    occurrence_id = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    current_name = table.Column<string>(type: "TEXT", nullable: false),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_specimen", x => x.id);
                    table.ForeignKey(
                        name: "fk_specimen_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_specimen_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_specimen_number_series_series_id",
                        column: x => x.series_id,
                        principalTable: "number_series",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "determination",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    specimen_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    qualifier = table.Column<string>(type: "TEXT", nullable: false),
                    family = table.Column<string>(type: "TEXT", nullable: false),
                    identified_by = table.Column<string>(type: "TEXT", nullable: false),
                    date_identified = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_determination", x => x.id);
                    table.ForeignKey(
                        name: "fk_determination_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_determination_specimen_specimen_id",
                        column: x => x.specimen_id,
                        principalTable: "specimen",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "part",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    specimen_id = table.Column<long>(type: "INTEGER", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 50, nullable: false),
                    holder = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    is_numbered = table.Column<bool>(type: "INTEGER", nullable: false),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_part", x => x.id);
                    table.ForeignKey(
                        name: "fk_part_specimen_specimen_id",
                        column: x => x.specimen_id,
                        principalTable: "specimen",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "custody_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    part_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    holder = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_custody_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_custody_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_custody_entry_part_part_id",
                        column: x => x.part_id,
                        principalTable: "part",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "step_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    part_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    step = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_step_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_step_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_step_entry_part_part_id",
                        column: x => x.part_id,
                        principalTable: "part",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_accession_act_id",
                table: "accession",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_accession_batch_id",
                table: "accession",
                column: "batch_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_accession_number",
                table: "accession",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_act_actor_id_request_key",
                table: "act",
                columns: new[] { "actor_id", "request_key" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_role_claims_role_id",
                table: "asp_net_role_claims",
                column: "role_id");

            migrationBuilder.CreateIndex(
                name: "role_name_index",
                table: "asp_net_roles",
                column: "normalized_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_claims_user_id",
                table: "asp_net_user_claims",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_logins_user_id",
                table: "asp_net_user_logins",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_passkeys_user_id",
                table: "asp_net_user_passkeys",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_roles_role_id",
                table: "asp_net_user_roles",
                column: "role_id");

            migrationBuilder.CreateIndex(
                name: "email_index",
                table: "asp_net_users",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "user_name_index",
                table: "asp_net_users",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_batch_act_id",
                table: "batch",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_joined_to_batch_id",
                table: "batch",
                column: "joined_to_batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_source_id",
                table: "batch",
                column: "source_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_batch_id_identity_occurrence",
                table: "batch_row",
                columns: new[] { "batch_id", "identity", "occurrence" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_batch_id_line",
                table: "batch_row",
                columns: new[] { "batch_id", "line" });

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_batch_id_pair_key",
                table: "batch_row",
                columns: new[] { "batch_id", "pair_key" });

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_first_list_id",
                table: "batch_row",
                column: "first_list_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_gathering_id",
                table: "batch_row",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_last_list_id",
                table: "batch_row",
                column: "last_list_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_superseded_by_id",
                table: "batch_row",
                column: "superseded_by_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_taken_as_written_act_id",
                table: "batch_row",
                column: "taken_as_written_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_withdrawn_in_list_id",
                table: "batch_row",
                column: "withdrawn_in_list_id");

            migrationBuilder.CreateIndex(
                name: "ix_custody_entry_act_id",
                table: "custody_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_custody_entry_part_id",
                table: "custody_entry",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_determination_act_id",
                table: "determination",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_determination_specimen_id",
                table: "determination",
                column: "specimen_id");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_accession_id",
                table: "gathering",
                column: "accession_id");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_act_id",
                table: "gathering",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_batch_row_id",
                table: "gathering",
                column: "batch_row_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_locality_protection_act_id",
                table: "locality_protection",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_locality_protection_gathering_id",
                table: "locality_protection",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_number_series_name",
                table: "number_series",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_number_series_pattern",
                table: "number_series",
                column: "pattern",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_part_code",
                table: "part",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_part_specimen_id",
                table: "part",
                column: "specimen_id");

            migrationBuilder.CreateIndex(
                name: "ix_received_list_act_id",
                table: "received_list",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_received_list_batch_id",
                table: "received_list",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_received_list_sha256",
                table: "received_list",
                column: "sha256");

            migrationBuilder.CreateIndex(
                name: "ix_roll_act_id",
                table: "roll",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_roll_name",
                table: "roll",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_roll_series_id",
                table: "roll",
                column: "series_id");

            migrationBuilder.CreateIndex(
                name: "ix_row_problem_batch_id",
                table: "row_problem",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_row_problem_list_id",
                table: "row_problem",
                column: "list_id");

            migrationBuilder.CreateIndex(
                name: "ix_row_problem_row_id",
                table: "row_problem",
                column: "row_id");

            migrationBuilder.CreateIndex(
                name: "ix_sign_in_link_account_id",
                table: "sign_in_link",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_sign_in_link_token_hash",
                table: "sign_in_link",
                column: "token_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_source_folded_name",
                table: "source",
                column: "folded_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specimen_act_id",
                table: "specimen",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_catalog_number",
                table: "specimen",
                column: "catalog_number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specimen_gathering_id",
                table: "specimen",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_series_id_number",
                table: "specimen",
                columns: new[] { "series_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_step_entry_act_id",
                table: "step_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_step_entry_part_id",
                table: "step_entry",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_work_act_id",
                table: "work",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_work_finished_at",
                table: "work",
                column: "finished_at");

            migrationBuilder.CreateIndex(
                name: "ix_work_kind_subject",
                table: "work",
                columns: new[] { "kind", "subject" });

            migrationBuilder.AddForeignKey(
                name: "fk_batch_row_gathering_gathering_id",
                table: "batch_row",
                column: "gathering_id",
                principalTable: "gathering",
                principalColumn: "id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_accession_act_act_id",
                table: "accession");

            migrationBuilder.DropForeignKey(
                name: "fk_batch_act_act_id",
                table: "batch");

            migrationBuilder.DropForeignKey(
                name: "fk_batch_row_act_taken_as_written_act_id",
                table: "batch_row");

            migrationBuilder.DropForeignKey(
                name: "fk_gathering_act_act_id",
                table: "gathering");

            migrationBuilder.DropForeignKey(
                name: "fk_received_list_act_act_id",
                table: "received_list");

            migrationBuilder.DropForeignKey(
                name: "fk_accession_batch_batch_id",
                table: "accession");

            migrationBuilder.DropForeignKey(
                name: "fk_batch_row_batch_batch_id",
                table: "batch_row");

            migrationBuilder.DropForeignKey(
                name: "fk_received_list_batch_batch_id",
                table: "received_list");

            migrationBuilder.DropForeignKey(
                name: "fk_batch_row_gathering_gathering_id",
                table: "batch_row");

            migrationBuilder.DropTable(
                name: "asp_net_role_claims");

            migrationBuilder.DropTable(
                name: "asp_net_user_claims");

            migrationBuilder.DropTable(
                name: "asp_net_user_logins");

            migrationBuilder.DropTable(
                name: "asp_net_user_passkeys");

            migrationBuilder.DropTable(
                name: "asp_net_user_roles");

            migrationBuilder.DropTable(
                name: "asp_net_user_tokens");

            migrationBuilder.DropTable(
                name: "custody_entry");

            migrationBuilder.DropTable(
                name: "data_protection_keys");

            migrationBuilder.DropTable(
                name: "determination");

            migrationBuilder.DropTable(
                name: "exact_locality");

            migrationBuilder.DropTable(
                name: "locality_protection");

            migrationBuilder.DropTable(
                name: "roll");

            migrationBuilder.DropTable(
                name: "row_problem");

            migrationBuilder.DropTable(
                name: "sign_in_link");

            migrationBuilder.DropTable(
                name: "step_entry");

            migrationBuilder.DropTable(
                name: "work");

            migrationBuilder.DropTable(
                name: "asp_net_roles");

            migrationBuilder.DropTable(
                name: "asp_net_users");

            migrationBuilder.DropTable(
                name: "part");

            migrationBuilder.DropTable(
                name: "specimen");

            migrationBuilder.DropTable(
                name: "number_series");

            migrationBuilder.DropTable(
                name: "act");

            migrationBuilder.DropTable(
                name: "batch");

            migrationBuilder.DropTable(
                name: "source");

            migrationBuilder.DropTable(
                name: "gathering");

            migrationBuilder.DropTable(
                name: "accession");

            migrationBuilder.DropTable(
                name: "batch_row");

            migrationBuilder.DropTable(
                name: "received_list");
        }
    }
}
