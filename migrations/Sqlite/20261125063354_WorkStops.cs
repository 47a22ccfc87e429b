using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class WorkStops : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<DateTime>(
                name: "begun_at",
                table: "work",
                type: "TEXT",
                nullable: true);

            // As EF would do it, SQLite would build the table anew, outside of any transaction; this is one step.
            migrationBuilder.Sql(
                """
                ALTER TABLE work ADD COLUMN stop_act_id INTEGER NULL
                    CONSTRAINT fk_work_act_stop_act_id REFERENCES act (id)
                """);

            migrationBuilder.AddColumn<DateTime>(
                name: "stopped_at",
                table: "work",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_work_stop_act_id",
                table: "work",
                column: "stop_act_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_work_act_stop_act_id",
                table: "work");

            migrationBuilder.DropIndex(
                name: "ix_work_stop_act_id",
                table: "work");

            migrationBuilder.DropColumn(
                name: "begun_at",
                table: "work");

            migrationBuilder.DropColumn(
                name: "stop_act_id",
                table: "work");

            migrationBuilder.DropColumn(
                name: "stopped_at",
                table: "work");
        }
    }
}
