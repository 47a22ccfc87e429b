using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class PapersAndPermits : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "permit_warning",
                table: "batch_row",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "closed_act_id",
                table: "batch",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "batch_closing",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    is_closing = table.Column<bool>(type: "INTEGER", nullable: false),
                    day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    sheets_in_transmittal = table.Column<int>(type: "INTEGER", nullable: true),
                    sheets_on_list = table.Column<int>(type: "INTEGER", nullable: false),
                    sheets_in_pile = table.Column<int>(type: "INTEGER", nullable: true),
                    sheets_numbered = table.Column<int>(type: "INTEGER", nullable: false),
                    sheets_set_aside = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_batch_closing", x => x.id);
                    table.ForeignKey(
                        name: "fk_batch_closing_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_batch_closing_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "paper",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    file_name = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    type = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    remark = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    set_aside_act_id = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_paper", x => x.id);
                    table.ForeignKey(
                        name: "fk_paper_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_paper_act_set_aside_act_id",
                        column: x => x.set_aside_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_paper_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "checked_sheets",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    closing_id = table.Column<long>(type: "INTEGER", nullable: false),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    is_missing = table.Column<bool>(type: "INTEGER", nullable: false),
                    collector = table.Column<string>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", nullable: false),
                    plant = table.Column<string>(type: "TEXT", nullable: false),
                    sheets = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_checked_sheets", x => x.id);
                    table.ForeignKey(
                        name: "fk_checked_sheets_batch_closing_closing_id",
                        column: x => x.closing_id,
                        principalTable: "batch_closing",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_checked_sheets_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "permit",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    issuer = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    valid_from = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    valid_until = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    country = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    state_province = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    counties = table.Column<string>(type: "TEXT", nullable: false),
                    taxa = table.Column<string>(type: "TEXT", nullable: false),
                    conditions = table.Column<string>(type: "TEXT", nullable: false),
                    paper_id = table.Column<long>(type: "INTEGER", nullable: true),
                    replaces_id = table.Column<long>(type: "INTEGER", nullable: true),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    ended_act_id = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_permit", x => x.id);
                    table.ForeignKey(
                        name: "fk_permit_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_permit_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_permit_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_permit_paper_paper_id",
                        column: x => x.paper_id,
                        principalTable: "paper",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_permit_permit_replaces_id",
                        column: x => x.replaces_id,
                        principalTable: "permit",
                        principalColumn: "id");
                });

            migrationBuilder.CreateIndex(
                name: "ix_batch_closing_act_id",
                table: "batch_closing",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_batch_closing_batch_id",
                table: "batch_closing",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_checked_sheets_closing_id",
                table: "checked_sheets",
                column: "closing_id");

            migrationBuilder.CreateIndex(
                name: "ix_checked_sheets_gathering_id",
                table: "checked_sheets",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_paper_act_id",
                table: "paper",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_paper_batch_id_sha256",
                table: "paper",
                columns: new[] { "batch_id", "sha256" },
                unique: true,
                filter: "set_aside_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_paper_set_aside_act_id",
                table: "paper",
                column: "set_aside_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_permit_act_id",
                table: "permit",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_permit_batch_id",
                table: "permit",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_permit_ended_act_id",
                table: "permit",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_permit_paper_id",
                table: "permit",
                column: "paper_id");

            migrationBuilder.CreateIndex(
                name: "ix_permit_replaces_id",
                table: "permit",
                column: "replaces_id",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "checked_sheets");

            migrationBuilder.DropTable(
                name: "permit");

            migrationBuilder.DropTable(
                name: "batch_closing");

            migrationBuilder.DropTable(
                name: "paper");

            migrationBuilder.DropColumn(
                name: "permit_warning",
                table: "batch_row");

            migrationBuilder.DropColumn(
                name: "closed_act_id",
                table: "batch");
        }
    }
}
