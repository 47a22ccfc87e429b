using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.PostgreSql
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
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "stop_act_id",
                table: "work",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "stopped_at",
                table: "work",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_work_stop_act_id",
                table: "work",
                column: "stop_act_id");

            migrationBuilder.AddForeignKey(
                name: "fk_work_act_stop_act_id",
                table: "work",
                column: "stop_act_id",
                principalTable: "act",
                principalColumn: "id");
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
