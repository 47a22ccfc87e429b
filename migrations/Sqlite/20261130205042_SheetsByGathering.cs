using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class SheetsByGathering : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering",
                column: "duplicate_of_id",
                filter: "duplicate_of_id IS NOT NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering");

            migrationBuilder.CreateIndex(
                name: "ix_gathering_duplicate_of_id",
                table: "gathering",
                column: "duplicate_of_id");
        }
    }
}
