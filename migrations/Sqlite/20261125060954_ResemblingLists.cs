using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class ResemblingLists : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "is_told_apart",
                table: "batch",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<long>(
                name: "resembles_batch_id",
                table: "batch",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "rows_alike",
                table: "batch",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "rows_to_the_letter",
                table: "batch",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "is_told_apart",
                table: "batch");

            migrationBuilder.DropColumn(
                name: "resembles_batch_id",
                table: "batch");

            migrationBuilder.DropColumn(
                name: "rows_alike",
                table: "batch");

            migrationBuilder.DropColumn(
                name: "rows_to_the_letter",
                table: "batch");
        }
    }
}
