using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class VoidedNumbers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "voided_numbers",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    roll_id = table.Column<long>(type: "bigint", nullable: false),
                    series_id = table.Column<long>(type: "bigint", nullable: false),
                    first_number = table.Column<long>(type: "bigint", nullable: false),
                    last_number = table.Column<long>(type: "bigint", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_voided_numbers", x => x.id);
                    table.ForeignKey(
                        name: "fk_voided_numbers_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_voided_numbers_roll_roll_id",
                        column: x => x.roll_id,
                        principalTable: "roll",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "void_taken_back",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    void_id = table.Column<long>(type: "bigint", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_void_taken_back", x => x.id);
                    table.ForeignKey(
                        name: "fk_void_taken_back_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_void_taken_back_voided_numbers_void_id",
                        column: x => x.void_id,
                        principalTable: "voided_numbers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_void_taken_back_act_id",
                table: "void_taken_back",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_void_taken_back_void_id",
                table: "void_taken_back",
                column: "void_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_act_id",
                table: "voided_numbers",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_roll_id",
                table: "voided_numbers",
                column: "roll_id");

            migrationBuilder.CreateIndex(
                name: "ix_voided_numbers_series_id_first_number",
                table: "voided_numbers",
                columns: new[] { "series_id", "first_number" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "void_taken_back");

            migrationBuilder.DropTable(
                name: "voided_numbers");
        }
    }
}
