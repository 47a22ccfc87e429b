using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class PlacesOfParcelsPlansOfSeries : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "closed_act_id",
                table: "tag_counter",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "series_id",
                table: "step_plan",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "place_id",
                table: "parcel",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "parcel_place_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    parcel_id = table.Column<long>(type: "INTEGER", nullable: false),
                    place_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parcel_place_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_parcel_place_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_place_entry_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_place_entry_place_place_id",
                        column: x => x.place_id,
                        principalTable: "place",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tags_lost",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    year = table.Column<int>(type: "INTEGER", nullable: false),
                    first = table.Column<int>(type: "INTEGER", nullable: false),
                    last = table.Column<int>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tags_lost", x => x.id);
                    table.ForeignKey(
                        name: "fk_tags_lost_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.UpdateData(
                table: "step_plan",
                keyColumn: "id",
                keyValue: 1L,
                column: "series_id",
                value: null);

            migrationBuilder.UpdateData(
                table: "tag_counter",
                keyColumn: "kind",
                keyValue: "Load",
                column: "closed_act_id",
                value: null);

            migrationBuilder.UpdateData(
                table: "tag_counter",
                keyColumn: "kind",
                keyValue: "Parcel",
                column: "closed_act_id",
                value: null);

            migrationBuilder.CreateIndex(
                name: "ix_parcel_place_entry_act_id",
                table: "parcel_place_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_place_entry_parcel_id",
                table: "parcel_place_entry",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_place_entry_place_id",
                table: "parcel_place_entry",
                column: "place_id");

            migrationBuilder.CreateIndex(
                name: "ix_tags_lost_act_id",
                table: "tags_lost",
                column: "act_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "parcel_place_entry");

            migrationBuilder.DropTable(
                name: "tags_lost");

            migrationBuilder.DropColumn(
                name: "closed_act_id",
                table: "tag_counter");

            migrationBuilder.DropColumn(
                name: "series_id",
                table: "step_plan");

            migrationBuilder.DropColumn(
                name: "place_id",
                table: "parcel");
        }
    }
}
