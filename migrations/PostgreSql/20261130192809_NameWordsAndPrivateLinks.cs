using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class NameWordsAndPrivateLinks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "name_word",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    word = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_name_word", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "private_link",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    token_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    parcel_id = table.Column<long>(type: "bigint", nullable: true),
                    batch_id = table.Column<long>(type: "bigint", nullable: true),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    ended_act_id = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_private_link", x => x.id);
                    table.ForeignKey(
                        name: "fk_private_link_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_private_link_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_private_link_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_private_link_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id");
                });

            migrationBuilder.CreateIndex(
                name: "ix_name_word_word",
                table: "name_word",
                column: "word");

            migrationBuilder.CreateIndex(
                name: "ix_private_link_act_id",
                table: "private_link",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_private_link_batch_id",
                table: "private_link",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_private_link_ended_act_id",
                table: "private_link",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_private_link_parcel_id",
                table: "private_link",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_private_link_token_hash",
                table: "private_link",
                column: "token_hash",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "name_word");

            migrationBuilder.DropTable(
                name: "private_link");
        }
    }
}
