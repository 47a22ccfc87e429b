using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
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
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "taken_off_act_id",
                table: "load_item",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "badge",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    code_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    account_id = table.Column<string>(type: "TEXT", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    withdrawn_act_id = table.Column<long>(type: "INTEGER", nullable: true)
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
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    key = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    signed_in_id = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    badge_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    last_scan_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ended_at = table.Column<DateTime>(type: "TEXT", nullable: true)
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
