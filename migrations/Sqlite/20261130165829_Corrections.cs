using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Corrections : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "correction",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    gathering_id = table.Column<long>(type: "INTEGER", nullable: false),
                    field = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    before = table.Column<string>(type: "TEXT", nullable: false),
                    after = table.Column<string>(type: "TEXT", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    takes_back_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_correction", x => x.id);
                    table.ForeignKey(
                        name: "fk_correction_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_correction_gathering_gathering_id",
                        column: x => x.gathering_id,
                        principalTable: "gathering",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "exact_correction",
                columns: table => new
                {
                    correction_id = table.Column<long>(type: "INTEGER", nullable: false),
                    before = table.Column<string>(type: "TEXT", nullable: false),
                    after = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_exact_correction", x => x.correction_id);
                    table.ForeignKey(
                        name: "fk_exact_correction_correction_correction_id",
                        column: x => x.correction_id,
                        principalTable: "correction",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_part_holder_specimen_id",
                table: "part",
                columns: new[] { "holder", "specimen_id" });

            migrationBuilder.CreateIndex(
                name: "ix_part_place_id",
                table: "part",
                column: "place_id",
                filter: "place_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_correction_act_id",
                table: "correction",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_correction_gathering_id",
                table: "correction",
                column: "gathering_id");

            migrationBuilder.CreateIndex(
                name: "ix_correction_takes_back_act_id",
                table: "correction",
                column: "takes_back_act_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "exact_correction");

            migrationBuilder.DropTable(
                name: "correction");

            migrationBuilder.DropIndex(
                name: "ix_part_holder_specimen_id",
                table: "part");

            migrationBuilder.DropIndex(
                name: "ix_part_place_id",
                table: "part");
        }
    }
}
