using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class LastingIdentifiers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "ix_specimen_occurrence_id",
                table: "specimen",
                column: "occurrence_id",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_specimen_occurrence_id",
                table: "specimen");
        }
    }
}
