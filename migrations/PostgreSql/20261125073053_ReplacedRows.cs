using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class ReplacedRows : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_batch_row_superseded_by_id",
                table: "batch_row");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_superseded_by_id",
                table: "batch_row",
                column: "superseded_by_id",
                filter: "superseded_by_id IS NOT NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_batch_row_superseded_by_id",
                table: "batch_row");

            migrationBuilder.CreateIndex(
                name: "ix_batch_row_superseded_by_id",
                table: "batch_row",
                column: "superseded_by_id");
        }
    }
}
