using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class OpinionsAndFiling : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "current_determination_id",
                table: "specimen",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "filed_as",
                table: "specimen",
                type: "character varying(400)",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "kind",
                table: "determination",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Listed");

            migrationBuilder.AddColumn<string>(
                name: "reason",
                table: "determination",
                type: "character varying(2000)",
                maxLength: 2000,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "seen_on",
                table: "determination",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Unknown");

            migrationBuilder.AddColumn<bool>(
                name: "waits",
                table: "determination",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "filed_as_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    specimen_id = table.Column<long>(type: "bigint", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_filed_as_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_filed_as_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_filed_as_entry_specimen_specimen_id",
                        column: x => x.specimen_id,
                        principalTable: "specimen",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "name_choice",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    specimen_id = table.Column<long>(type: "bigint", nullable: false),
                    determination_id = table.Column<long>(type: "bigint", nullable: false),
                    counts = table.Column<bool>(type: "boolean", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_name_choice", x => x.id);
                    table.ForeignKey(
                        name: "fk_name_choice_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_name_choice_determination_determination_id",
                        column: x => x.determination_id,
                        principalTable: "determination",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_name_choice_specimen_specimen_id",
                        column: x => x.specimen_id,
                        principalTable: "specimen",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_specimen_to_refile",
                table: "specimen",
                column: "id",
                filter: "filed_as <> '' AND filed_as <> current_name");

            migrationBuilder.CreateIndex(
                name: "ix_determination_waits",
                table: "determination",
                column: "id",
                filter: "waits");

            migrationBuilder.CreateIndex(
                name: "ix_filed_as_entry_act_id",
                table: "filed_as_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_filed_as_entry_specimen_id",
                table: "filed_as_entry",
                column: "specimen_id");

            migrationBuilder.CreateIndex(
                name: "ix_name_choice_act_id",
                table: "name_choice",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_name_choice_determination_id",
                table: "name_choice",
                column: "determination_id");

            migrationBuilder.CreateIndex(
                name: "ix_name_choice_specimen_id",
                table: "name_choice",
                column: "specimen_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "filed_as_entry");

            migrationBuilder.DropTable(
                name: "name_choice");

            migrationBuilder.DropIndex(
                name: "ix_specimen_to_refile",
                table: "specimen");

            migrationBuilder.DropIndex(
                name: "ix_determination_waits",
                table: "determination");

            migrationBuilder.DropColumn(
                name: "current_determination_id",
                table: "specimen");

            migrationBuilder.DropColumn(
                name: "filed_as",
                table: "specimen");

            migrationBuilder.DropColumn(
                name: "kind",
                table: "determination");

            migrationBuilder.DropColumn(
                name: "reason",
                table: "determination");

            migrationBuilder.DropColumn(
                name: "seen_on",
                table: "determination");

            migrationBuilder.DropColumn(
                name: "waits",
                table: "determination");
        }
    }
}
