using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AccessTokens : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "request_digest",
                table: "act",
                type: "TEXT",
                maxLength: 64,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "api_token",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    token_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    account_id = table.Column<string>(type: "TEXT", nullable: true),
                    right_names = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    expires_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    last_used_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    withdrawn_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    withdrawn_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_api_token", x => x.id);
                    table.ForeignKey(
                        name: "fk_api_token_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_api_token_act_withdrawn_act_id",
                        column: x => x.withdrawn_act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_api_token_asp_net_users_account_id",
                        column: x => x.account_id,
                        principalTable: "asp_net_users",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_api_token_account_id",
                table: "api_token",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_token_act_id",
                table: "api_token",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_token_token_hash",
                table: "api_token",
                column: "token_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_api_token_withdrawn_act_id",
                table: "api_token",
                column: "withdrawn_act_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "api_token");

            migrationBuilder.DropColumn(
                name: "request_digest",
                table: "act");
        }
    }
}
