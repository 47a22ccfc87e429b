using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class WordsToFindBy : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "find_text",
                table: "specimen",
                type: "text",
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_without_words",
                table: "specimen",
                column: "id",
                filter: "find_text = ''");

            // By hand: the model cannot name an index over what is made of a column.
            migrationBuilder.Sql(
                "CREATE INDEX ix_specimen_find ON specimen USING gin (to_tsvector('simple', find_text))");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP INDEX ix_specimen_find");

            migrationBuilder.DropIndex(
                name: "ix_specimen_without_words",
                table: "specimen");

            migrationBuilder.DropColumn(
                name: "find_text",
                table: "specimen");
        }
    }
}
