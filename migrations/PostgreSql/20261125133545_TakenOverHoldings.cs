using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class TakenOverHoldings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_specimen_catalog_number",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_specimen_series_id_number",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_part_code",
                table: "part");

            migrationBuilder.AddColumn<int>(
                name: "repeat",
                table: "specimen",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<bool>(
                name: "is_from_before",
                table: "part",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "repeat",
                table: "part",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "catalog_number",
                table: "batch_row",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "carries_numbers",
                table: "batch",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateIndex(
                name: "ix_specimen_catalog_number_repeat",
                table: "specimen",
                columns: new[] { "catalog_number", "repeat" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specimen_repeated",
                table: "specimen",
                columns: new[] { "catalog_number", "id" },
                filter: "repeat > 0");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_series_id_number_repeat",
                table: "specimen",
                columns: new[] { "series_id", "number", "repeat" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_part_code_repeat",
                table: "part",
                columns: new[] { "code", "repeat" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_specimen_catalog_number_repeat",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_specimen_repeated",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_specimen_series_id_number_repeat",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_part_code_repeat",
                table: "part");

            migrationBuilder.DropColumn(
                name: "repeat",
                table: "specimen");

            migrationBuilder.DropColumn(
                name: "is_from_before",
                table: "part");

            migrationBuilder.DropColumn(
                name: "repeat",
                table: "part");

            migrationBuilder.DropColumn(
                name: "catalog_number",
                table: "batch_row");

            migrationBuilder.DropColumn(
                name: "carries_numbers",
                table: "batch");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_catalog_number",
                table: "specimen",
                column: "catalog_number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specimen_series_id_number",
                table: "specimen",
                columns: new[] { "series_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_part_code",
                table: "part",
                column: "code",
                unique: true);
        }
    }
}
