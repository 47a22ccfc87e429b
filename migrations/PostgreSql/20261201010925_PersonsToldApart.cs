using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class PersonsToldApart : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_person_spelling_written",
                table: "person_spelling");

            migrationBuilder.AddColumn<int>(
                name: "place",
                table: "person_spelling",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "first_year",
                table: "person",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "habit",
                table: "person",
                type: "character varying(20)",
                maxLength: 20,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "last_year",
                table: "person",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "merged_into_id",
                table: "person",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "person_habit",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<long>(type: "bigint", nullable: false),
                    habit = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_habit", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_habit_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_habit_person_person_id",
                        column: x => x.person_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_merge",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<long>(type: "bigint", nullable: false),
                    into_id = table.Column<long>(type: "bigint", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    ended_act_id = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_merge", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_merge_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_merge_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_person_merge_person_into_id",
                        column: x => x.into_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_merge_person_person_id",
                        column: x => x.person_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_years",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<long>(type: "bigint", nullable: false),
                    first_year = table.Column<int>(type: "integer", nullable: true),
                    last_year = table.Column<int>(type: "integer", nullable: true),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_years", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_years_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_years_person_person_id",
                        column: x => x.person_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_written_place",
                table: "person_spelling",
                columns: new[] { "written", "place" },
                unique: true,
                filter: "ended_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_person_habit_act_id",
                table: "person_habit",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_habit_person_id",
                table: "person_habit",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_merged_person",
                table: "person_merge",
                column: "person_id",
                unique: true,
                filter: "ended_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_person_merge_act_id",
                table: "person_merge",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_merge_ended_act_id",
                table: "person_merge",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_merge_into_id",
                table: "person_merge",
                column: "into_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_years_act_id",
                table: "person_years",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_years_person_id",
                table: "person_years",
                column: "person_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "person_habit");

            migrationBuilder.DropTable(
                name: "person_merge");

            migrationBuilder.DropTable(
                name: "person_years");

            migrationBuilder.DropIndex(
                name: "ix_person_spelling_written_place",
                table: "person_spelling");

            migrationBuilder.DropColumn(
                name: "place",
                table: "person_spelling");

            migrationBuilder.DropColumn(
                name: "first_year",
                table: "person");

            migrationBuilder.DropColumn(
                name: "habit",
                table: "person");

            migrationBuilder.DropColumn(
                name: "last_year",
                table: "person");

            migrationBuilder.DropColumn(
                name: "merged_into_id",
                table: "person");

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_written",
                table: "person_spelling",
                column: "written",
                unique: true,
                filter: "ended_act_id IS NULL");
        }
    }
}
