using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class LastingIdentifiers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterColumn<string>(
                name: "occurrence_id",
                table: "specimen",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(60)",
                oldMaxLength: 60);

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

            migrationBuilder.AlterColumn<string>(
                name: "occurrence_id",
                table: "specimen",
                type: "character varying(60)",
                maxLength: 60,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(200)",
                oldMaxLength: 200);
        }
    }
}
