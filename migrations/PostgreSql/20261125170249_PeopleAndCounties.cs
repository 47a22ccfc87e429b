using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class PeopleAndCounties : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "county_key",
                table: "gathering",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "closed_at",
                table: "asp_net_users",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "account_county",
                columns: table => new
                {
                    account_id = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    county_key = table.Column<string>(type: "character varying(120)", maxLength: 120, nullable: false),
                    written = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_county", x => new { x.account_id, x.county_key });
                    table.ForeignKey(
                        name: "fk_account_county_asp_net_users_account_id",
                        column: x => x.account_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    version = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_tie",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<long>(type: "bigint", nullable: false),
                    account_id = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    ended_act_id = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_tie", x => x.id);
                    table.ForeignKey(
                        name: "fk_account_tie_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_account_tie_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_account_tie_asp_net_users_account_id",
                        column: x => x.account_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_account_tie_person_person_id",
                        column: x => x.person_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_spelling",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<long>(type: "bigint", nullable: false),
                    written = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    family_key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    ended_act_id = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_spelling", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_spelling_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_spelling_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_person_spelling_person_person_id",
                        column: x => x.person_id,
                        principalTable: "person",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            // By hand: the model cannot name an index over the parts of a gathering.
            migrationBuilder.CreateIndex(
                name: "ix_gathering_collector_key_number_key",
                table: "gathering",
                columns: ["collector_key", "number_key"]);

            migrationBuilder.CreateIndex(
                name: "ix_gathering_county_key",
                table: "gathering",
                column: "county_key");

            migrationBuilder.CreateIndex(
                name: "ix_account_tie_account_id",
                table: "account_tie",
                column: "account_id",
                unique: true,
                filter: "ended_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_account_tie_act_id",
                table: "account_tie",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_account_tie_ended_act_id",
                table: "account_tie",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_account_tie_person_id",
                table: "account_tie",
                column: "person_id",
                unique: true,
                filter: "ended_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_person_act_id",
                table: "person",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_act_id",
                table: "person_spelling",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_ended_act_id",
                table: "person_spelling",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_person_id",
                table: "person_spelling",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_spelling_written",
                table: "person_spelling",
                column: "written",
                unique: true,
                filter: "ended_act_id IS NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "account_county");

            migrationBuilder.DropTable(
                name: "account_tie");

            migrationBuilder.DropTable(
                name: "person_spelling");

            migrationBuilder.DropTable(
                name: "person");

            migrationBuilder.DropIndex(
                name: "ix_gathering_collector_key_number_key",
                table: "gathering");

            migrationBuilder.DropIndex(
                name: "ix_gathering_county_key",
                table: "gathering");

            migrationBuilder.DropColumn(
                name: "county_key",
                table: "gathering");

            migrationBuilder.DropColumn(
                name: "closed_at",
                table: "asp_net_users");
        }
    }
}
