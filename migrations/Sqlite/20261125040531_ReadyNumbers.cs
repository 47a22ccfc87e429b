using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class ReadyNumbers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ready_number",
                columns: table => new
                {
                    series_id = table.Column<long>(type: "INTEGER", nullable: false),
                    number = table.Column<long>(type: "INTEGER", nullable: false),
                    written = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    is_first_of_laying = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ready_number", x => new { x.series_id, x.number });
                    table.ForeignKey(
                        name: "fk_ready_number_number_series_series_id",
                        column: x => x.series_id,
                        principalTable: "number_series",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "ready_number");
        }
    }
}
