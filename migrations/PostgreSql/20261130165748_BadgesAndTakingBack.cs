using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Accession.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class BadgesAndTakingBack : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_load_item_load_id_part_id",
                table: "load_item");

            migrationBuilder.AddColumn<long>(
                name: "taken_back_act_id",
                table: "place_entry",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "taken_off_act_id",
                table: "load_item",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "badge",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    code_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    account_id = table.Column<string>(type: "text", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_act_id = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_badge", x => x.id);
                    table.ForeignKey(
                        name: "fk_badge_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_badge_act_withdrawn_act_id",
                        column: x => x.withdrawn_act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_badge_asp_net_users_account_id",
                        column: x => x.account_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "bench_shift",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    key = table.Column<string>(type: "character varying(80)", maxLength: 80, nullable: false),
                    signed_in_id = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    badge_id = table.Column<long>(type: "bigint", nullable: false),
                    act_id = table.Column<long>(type: "bigint", nullable: false),
                    last_scan_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bench_shift", x => x.id);
                    table.ForeignKey(
                        name: "fk_bench_shift_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_bench_shift_badge_badge_id",
                        column: x => x.badge_id,
                        principalTable: "badge",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_load_item_load_id_part_id",
                table: "load_item",
                columns: new[] { "load_id", "part_id" },
                unique: true,
                filter: "taken_off_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_badge_account_id",
                table: "badge",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_badge_act_id",
                table: "badge",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_badge_code_hash",
                table: "badge",
                column: "code_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_badge_withdrawn_act_id",
                table: "badge",
                column: "withdrawn_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_bench_shift_act_id",
                table: "bench_shift",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_bench_shift_badge_id",
                table: "bench_shift",
                column: "badge_id");

            migrationBuilder.CreateIndex(
                name: "ix_bench_shift_signed_in_id_key",
                table: "bench_shift",
                columns: new[] { "signed_in_id", "key" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "bench_shift");

            migrationBuilder.DropTable(
                name: "badge");

            migrationBuilder.DropIndex(
                name: "ix_load_item_load_id_part_id",
                table: "load_item");

            migrationBuilder.DropColumn(
                name: "taken_back_act_id",
                table: "place_entry");

            migrationBuilder.DropColumn(
                name: "taken_off_act_id",
                table: "load_item");

            migrationBuilder.CreateIndex(
                name: "ix_load_item_load_id_part_id",
                table: "load_item",
                columns: new[] { "load_id", "part_id" },
                unique: true);
        }
    }
}
