using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class ClosedSeries : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
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

            migrationBuilder.CreateIndex(
                name: "ix_series_entry_act_id",
                table: "series_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_series_entry_series_id",
                table: "series_entry",
                column: "series_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "series_entry");

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
        }
    }
}
