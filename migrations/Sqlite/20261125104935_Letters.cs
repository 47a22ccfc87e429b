using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Letters : Migration
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
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "letter");

            migrationBuilder.DropTable(
                name: "mail_hold");

            migrationBuilder.DropColumn(
                name: "not_before",
                table: "work");

            migrationBuilder.DropColumn(
                name: "collector_address",
                table: "source");
        }
    }
}
