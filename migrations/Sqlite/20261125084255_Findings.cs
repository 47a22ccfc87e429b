using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Findings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
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

            migrationBuilder.AddColumn<long>(
                name: "set_aside_of_id",
                table: "batch_row",
                type: "INTEGER",
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

            migrationBuilder.CreateIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering",
                column: "duplicate_of_id");

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
                name: "ix_row_key_batch_id_line",
                table: "row_key",
                columns: new[] { "batch_id", "line" });

            migrationBuilder.CreateIndex(
                name: "ix_row_key_row_id",
                table: "row_key",
                column: "row_id");

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

            // Rows that wait in batches of an earlier version are looked for when the server starts.
            migrationBuilder.Sql(
                "INSERT INTO work (kind, subject, act_id, attempts, done, total, wanted_at) "
                + "SELECT 'find duplicates', batch.id, batch.act_id, 0, 0, 0, act.at "
                + "FROM batch JOIN act ON act.id = batch.act_id "
                + "WHERE batch.joined_to_batch_id IS NULL AND EXISTS (SELECT 1 FROM batch_row r "
                + "WHERE r.batch_id = batch.id AND r.gathering_id IS NULL "
                + "AND r.superseded_by_id IS NULL AND r.withdrawn_in_list_id IS NULL)");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "decision_entry");

            migrationBuilder.DropTable(
                name: "found_member");

            migrationBuilder.DropTable(
                name: "gathering_key");

            migrationBuilder.DropTable(
                name: "gathering_signature");

            migrationBuilder.DropTable(
                name: "row_key");

            migrationBuilder.DropTable(
                name: "row_record");

            migrationBuilder.DropTable(
                name: "row_signature");

            migrationBuilder.DropTable(
                name: "set_aside");

            migrationBuilder.DropTable(
                name: "told_apart");

            migrationBuilder.DropIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering");

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

            migrationBuilder.DropColumn(
                name: "set_aside_of_id",
                table: "batch_row");
        }
    }
}
