using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class FindingsNumbersLetters : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<DateTime>(
                name: "not_before",
                table: "work",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "collector_address",
                table: "source",
                type: "TEXT",
                maxLength: 254,
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "is_withheld",
                table: "ready_number",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "closed_as",
                table: "number_series",
                type: "TEXT",
                maxLength: 40,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "closed_at",
                table: "number_series",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "closed_because",
                table: "number_series",
                type: "TEXT",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "duplicate_of_id",
                table: "gathering",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "signature_version",
                table: "gathering",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "alike_not_compared",
                table: "batch_row",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "decision",
                table: "batch_row",
                type: "TEXT",
                maxLength: 40,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "finding",
                table: "batch_row",
                type: "TEXT",
                maxLength: 40,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "decision_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    decision = table.Column<string>(type: "TEXT", maxLength: 40, nullable: true),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: true),
                    other_row_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_decision_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_decision_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_decision_entry_batch_row_other_row_id",
                        column: x => x.other_row_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_decision_entry_batch_row_row_id",
                        column: x => x.row_id,
                        principalTable: "batch_row",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_decision_entry_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "found_member",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: true),
                    other_row_id = table.Column<long>(type: "INTEGER", nullable: true),
                    evidence = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_found_member", x => x.id);
                    table.ForeignKey(
                        name: "fk_found_member_batch_row_other_row_id",
                        column: x => x.other_row_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_found_member_batch_row_row_id",
                        column: x => x.row_id,
                        principalTable: "batch_row",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_found_member_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "gathering_key",
                columns: table => new
                {
                    key = table.Column<long>(type: "INTEGER", nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    day = table.Column<int>(type: "INTEGER", nullable: false),
                    detail = table.Column<int>(type: "INTEGER", nullable: false),
                    is_identity = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_gathering_key", x => new { x.key, x.day, x.detail, x.gathering_id });
                    table.ForeignKey(
                        name: "fk_gathering_key_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "gathering_signature",
                columns: table => new
                {
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    signature = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_gathering_signature", x => x.gathering_id);
                    table.ForeignKey(
                        name: "fk_gathering_signature_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "mail_hold",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    released_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_mail_hold", x => x.id);
                    table.ForeignKey(
                        name: "fk_mail_hold_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_mail_hold_act_released_act_id",
                        column: x => x.released_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "row_key",
                columns: table => new
                {
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    key = table.Column<long>(type: "INTEGER", nullable: false),
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    day = table.Column<int>(type: "INTEGER", nullable: false),
                    detail = table.Column<int>(type: "INTEGER", nullable: false),
                    line = table.Column<int>(type: "INTEGER", nullable: false),
                    is_identity = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_row_key", x => new { x.batch_id, x.key, x.day, x.detail, x.row_id });
                });

            migrationBuilder.CreateTable(
                name: "row_record",
                columns: table => new
                {
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_row_record", x => new { x.row_id, x.gathering_id });
                });

            migrationBuilder.CreateTable(
                name: "row_signature",
                columns: table => new
                {
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    signature = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_row_signature", x => x.row_id);
                });

            migrationBuilder.CreateTable(
                name: "series_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    series_id = table.Column<long>(type: "INTEGER", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    paper_highest = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_series_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_series_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_series_entry_number_series_series_id",
                        column: x => x.series_id,
                        principalTable: "number_series",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "set_aside",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    accession_id = table.Column<long>(type: "INTEGER", nullable: false),
                    batch_row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    sheets = table.Column<int>(type: "INTEGER", nullable: false),
                    decision = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_set_aside", x => x.id);
                    table.ForeignKey(
                        name: "fk_set_aside_accession_accession_id",
                        column: x => x.accession_id,
                        principalTable: "accession",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_set_aside_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_set_aside_batch_row_batch_row_id",
                        column: x => x.batch_row_id,
                        principalTable: "batch_row",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_set_aside_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "told_apart",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    row_id = table.Column<long>(type: "INTEGER", nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: true),
                    other_row_id = table.Column<long>(type: "INTEGER", nullable: true),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    taken_back_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_told_apart", x => x.id);
                    table.ForeignKey(
                        name: "fk_told_apart_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_told_apart_act_taken_back_act_id",
                        column: x => x.taken_back_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_told_apart_batch_row_other_row_id",
                        column: x => x.other_row_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_told_apart_batch_row_row_id",
                        column: x => x.row_id,
                        principalTable: "batch_row",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_told_apart_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "voided_numbers",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    roll_id = table.Column<long>(type: "INTEGER", nullable: false),
                    series_id = table.Column<long>(type: "INTEGER", nullable: false),
                    first_number = table.Column<long>(type: "INTEGER", nullable: false),
                    last_number = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_voided_numbers", x => x.id);
                    table.ForeignKey(
                        name: "fk_voided_numbers_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_voided_numbers_roll_roll_id",
                        column: x => x.roll_id,
                        principalTable: "roll",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "letter",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    to = table.Column<string>(type: "TEXT", maxLength: 254, nullable: false),
                    subject = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    text = table.Column<string>(type: "TEXT", nullable: false),
                    message_id = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    row_id = table.Column<long>(type: "INTEGER", nullable: true),
                    decision_id = table.Column<long>(type: "INTEGER", nullable: true),
                    ordinal = table.Column<int>(type: "INTEGER", nullable: false),
                    sent_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    refused_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    refused_because = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    tries = table.Column<int>(type: "INTEGER", nullable: false),
                    first_tried_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    trouble = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    try_again_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_letter", x => x.id);
                    table.ForeignKey(
                        name: "fk_letter_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_letter_batch_row_row_id",
                        column: x => x.row_id,
                        principalTable: "batch_row",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_letter_decision_entry_decision_id",
                        column: x => x.decision_id,
                        principalTable: "decision_entry",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "void_taken_back",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    void_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_void_taken_back", x => x.id);
                    table.ForeignKey(
                        name: "fk_void_taken_back_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_void_taken_back_voided_numbers_void_id",
                        column: x => x.void_id,
                        principalTable: "voided_numbers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering",
                column: "duplicate_of_id");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_signature_version",
                table: "gathering",
                column: "signature_version");

            migrationBuilder.CreateIndex(
                name: "ix_decision_entry_act_id",
                table: "decision_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_decision_entry_gathering_id",
                table: "decision_entry",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_decision_entry_other_row_id",
                table: "decision_entry",
                column: "other_row_id");

            migrationBuilder.CreateIndex(
                name: "ix_decision_entry_row_id",
                table: "decision_entry",
                column: "row_id");

            migrationBuilder.CreateIndex(
                name: "ix_found_member_gathering_id",
                table: "found_member",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_found_member_other_row_id",
                table: "found_member",
                column: "other_row_id");

            migrationBuilder.CreateIndex(
                name: "ix_found_member_row_id",
                table: "found_member",
                column: "row_id");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_key_gathering_id",
                table: "gathering_key",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_letter_act_id",
                table: "letter",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_letter_decision_id",
                table: "letter",
                column: "decision_id");

            migrationBuilder.CreateIndex(
                name: "ix_letter_message_id",
                table: "letter",
                column: "message_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_letter_row_id_ordinal",
                table: "letter",
                columns: new[] { "row_id", "ordinal" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_mail_hold_act_id",
                table: "mail_hold",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_mail_hold_released_act_id",
                table: "mail_hold",
                column: "released_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_row_key_batch_id_line",
                table: "row_key",
                columns: new[] { "batch_id", "line" });

            migrationBuilder.CreateIndex(
                name: "ix_row_key_row_id",
                table: "row_key",
                column: "row_id");

            migrationBuilder.CreateIndex(
                name: "ix_series_entry_act_id",
                table: "series_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_series_entry_series_id",
                table: "series_entry",
                column: "series_id");

            migrationBuilder.CreateIndex(
                name: "ix_set_aside_accession_id",
                table: "set_aside",
                column: "accession_id");

            migrationBuilder.CreateIndex(
                name: "ix_set_aside_act_id",
                table: "set_aside",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_set_aside_batch_row_id",
                table: "set_aside",
                column: "batch_row_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_set_aside_gathering_id",
                table: "set_aside",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_told_apart_act_id",
                table: "told_apart",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_told_apart_gathering_id",
                table: "told_apart",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_told_apart_other_row_id",
                table: "told_apart",
                column: "other_row_id");

            migrationBuilder.CreateIndex(
                name: "ix_told_apart_row_id",
                table: "told_apart",
                column: "row_id");

            migrationBuilder.CreateIndex(
                name: "ix_told_apart_taken_back_act_id",
                table: "told_apart",
                column: "taken_back_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_void_taken_back_act_id",
                table: "void_taken_back",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_void_taken_back_void_id",
                table: "void_taken_back",
                column: "void_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_act_id",
                table: "voided_numbers",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_roll_id",
                table: "voided_numbers",
                column: "roll_id");

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_series_id_first_number",
                table: "voided_numbers",
                columns: new[] { "series_id", "first_number" });

            // Rows that wait in batches of an earlier version are looked for when the server starts.
            migrationBuilder.Sql(
                "INSERT INTO work (kind, subject, act_id, attempts, done, total, wanted_at) "
                + "SELECT 'find duplicates', batch.id, batch.act_id, 0, 0, 0, act.at "
                + "FROM batch JOIN act ON act.id = batch.act_id "
                + "WHERE batch.joined_to_batch_id IS NULL AND EXISTS (SELECT 1 FROM batch_row r "
                + "WHERE r.batch_id = batch.id AND r.gathering_id IS NULL "
                + "AND r.superseded_by_id IS NULL AND r.withdrawn_in_list_id IS NULL);");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "found_member");

            migrationBuilder.DropTable(
                name: "gathering_key");

            migrationBuilder.DropTable(
                name: "gathering_signature");

            migrationBuilder.DropTable(
                name: "letter");

            migrationBuilder.DropTable(
                name: "mail_hold");

            migrationBuilder.DropTable(
                name: "row_key");

            migrationBuilder.DropTable(
                name: "row_record");

            migrationBuilder.DropTable(
                name: "row_signature");

            migrationBuilder.DropTable(
                name: "series_entry");

            migrationBuilder.DropTable(
                name: "set_aside");

            migrationBuilder.DropTable(
                name: "told_apart");

            migrationBuilder.DropTable(
                name: "void_taken_back");

            migrationBuilder.DropTable(
                name: "decision_entry");

            migrationBuilder.DropTable(
                name: "voided_numbers");

            migrationBuilder.DropIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering");

            migrationBuilder.DropIndex(
                name: "ix_gathering_signature_version",
                table: "gathering");

            migrationBuilder.DropColumn(
                name: "not_before",
                table: "work");

            migrationBuilder.DropColumn(
                name: "collector_address",
                table: "source");

            migrationBuilder.DropColumn(
                name: "is_withheld",
                table: "ready_number");

            migrationBuilder.DropColumn(
                name: "closed_as",
                table: "number_series");

            migrationBuilder.DropColumn(
                name: "closed_at",
                table: "number_series");

            migrationBuilder.DropColumn(
                name: "closed_because",
                table: "number_series");

            migrationBuilder.DropColumn(
                name: "duplicate_of_id",
                table: "gathering");

            migrationBuilder.DropColumn(
                name: "signature_version",
                table: "gathering");

            migrationBuilder.DropColumn(
                name: "alike_not_compared",
                table: "batch_row");

            migrationBuilder.DropColumn(
                name: "decision",
                table: "batch_row");

            migrationBuilder.DropColumn(
                name: "finding",
                table: "batch_row");
        }
    }
}
