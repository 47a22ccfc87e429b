using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

#pragma warning disable CA1814 // Prefer jagged arrays over multidimensional

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class ParcelsAndLoads : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "mark",
                table: "step_entry",
                type: "TEXT",
                maxLength: 40,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<DateTime>(
                name: "came_from_outside_at",
                table: "part",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "cleared_at",
                table: "part",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "cleared_by",
                table: "part",
                type: "TEXT",
                maxLength: 40,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "load_id",
                table: "part",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "may_open_from",
                table: "part",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "next_step",
                table: "part",
                type: "TEXT",
                maxLength: 40,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "parcel_id",
                table: "part",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "place_id",
                table: "part",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "plan_id",
                table: "part",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "zone",
                table: "part",
                type: "TEXT",
                maxLength: 40,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "freezer",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    place = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    defrosts_itself = table.Column<bool>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_freezer", x => x.id);
                    table.ForeignKey(
                        name: "fk_freezer_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "house_rule",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    text = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    source = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    holds_from = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    open_after_hours = table.Column<int>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    ended_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_house_rule", x => x.id);
                    table.ForeignKey(
                        name: "fk_house_rule_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_house_rule_act_ended_act_id",
                        column: x => x.ended_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "place",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    zone = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place", x => x.id);
                    table.ForeignKey(
                        name: "fk_place_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "regime",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    edition = table.Column<int>(type: "INTEGER", nullable: false),
                    threshold_celsius = table.Column<decimal>(type: "TEXT", precision: 5, scale: 1, nullable: false),
                    exposure_hours = table.Column<int>(type: "INTEGER", nullable: false),
                    cycles = table.Column<int>(type: "INTEGER", nullable: false),
                    interval_hours = table.Column<int>(type: "INTEGER", nullable: false),
                    open_after_hours = table.Column<int>(type: "INTEGER", nullable: false),
                    source = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_regime", x => x.id);
                    table.ForeignKey(
                        name: "fk_regime_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "step_plan",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    edition = table.Column<int>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_step_plan", x => x.id);
                    table.ForeignKey(
                        name: "fk_step_plan_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "tag_counter",
                columns: table => new
                {
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    year = table.Column<int>(type: "INTEGER", nullable: false),
                    next = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tag_counter", x => x.kind);
                });

            migrationBuilder.CreateTable(
                name: "house_rule_hours",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    house_rule_id = table.Column<long>(type: "INTEGER", nullable: false),
                    threshold_celsius = table.Column<decimal>(type: "TEXT", precision: 5, scale: 1, nullable: false),
                    hours = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_house_rule_hours", x => x.id);
                    table.ForeignKey(
                        name: "fk_house_rule_hours_house_rule_house_rule_id",
                        column: x => x.house_rule_id,
                        principalTable: "house_rule",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "place_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    part_id = table.Column<long>(type: "INTEGER", nullable: false),
                    place_id = table.Column<long>(type: "INTEGER", nullable: false),
                    crossed_outside = table.Column<bool>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_place_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_place_entry_part_part_id",
                        column: x => x.part_id,
                        principalTable: "part",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_place_entry_place_place_id",
                        column: x => x.place_id,
                        principalTable: "place",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "freezer_load",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    freezer_id = table.Column<long>(type: "INTEGER", nullable: false),
                    regime_id = table.Column<long>(type: "INTEGER", nullable: false),
                    repeats_id = table.Column<long>(type: "INTEGER", nullable: true),
                    standing = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    clock_from = table.Column<DateTime>(type: "TEXT", nullable: true),
                    taken_out_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    may_open_from = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_freezer_load", x => x.id);
                    table.ForeignKey(
                        name: "fk_freezer_load_freezer_freezer_id",
                        column: x => x.freezer_id,
                        principalTable: "freezer",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_freezer_load_freezer_load_repeats_id",
                        column: x => x.repeats_id,
                        principalTable: "freezer_load",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_freezer_load_regime_regime_id",
                        column: x => x.regime_id,
                        principalTable: "regime",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "planned_step",
                columns: table => new
                {
                    plan_id = table.Column<long>(type: "INTEGER", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    step = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    after = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_planned_step", x => new { x.plan_id, x.position });
                    table.ForeignKey(
                        name: "fk_planned_step_step_plan_plan_id",
                        column: x => x.plan_id,
                        principalTable: "step_plan",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "load_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    load_id = table.Column<long>(type: "INTEGER", nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    house_rule_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_load_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_load_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_load_entry_freezer_load_load_id",
                        column: x => x.load_id,
                        principalTable: "freezer_load",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_load_entry_house_rule_house_rule_id",
                        column: x => x.house_rule_id,
                        principalTable: "house_rule",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "parcel",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    year = table.Column<int>(type: "INTEGER", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    tag = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    source_id = table.Column<long>(type: "INTEGER", nullable: true),
                    from_whom = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    came_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    came_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    carrier = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    boxes = table.Column<int>(type: "INTEGER", nullable: false),
                    bundles = table.Column<int>(type: "INTEGER", nullable: false),
                    condition = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    standing = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    load_id = table.Column<long>(type: "INTEGER", nullable: true),
                    cleared_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    cleared_by = table.Column<string>(type: "TEXT", maxLength: 40, nullable: true),
                    may_open_from = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parcel", x => x.id);
                    table.ForeignKey(
                        name: "fk_parcel_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_freezer_load_load_id",
                        column: x => x.load_id,
                        principalTable: "freezer_load",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_parcel_source_source_id",
                        column: x => x.source_id,
                        principalTable: "source",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "clearance_entry",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    part_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    cleared_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    cleared_by = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    may_open_from = table.Column<DateTime>(type: "TEXT", nullable: false),
                    load_id = table.Column<long>(type: "INTEGER", nullable: true),
                    house_rule_id = table.Column<long>(type: "INTEGER", nullable: true),
                    parcel_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_clearance_entry", x => x.id);
                    table.ForeignKey(
                        name: "fk_clearance_entry_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_clearance_entry_freezer_load_load_id",
                        column: x => x.load_id,
                        principalTable: "freezer_load",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_clearance_entry_house_rule_house_rule_id",
                        column: x => x.house_rule_id,
                        principalTable: "house_rule",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_clearance_entry_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_clearance_entry_part_part_id",
                        column: x => x.part_id,
                        principalTable: "part",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "load_item",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    load_id = table.Column<long>(type: "INTEGER", nullable: false),
                    parcel_id = table.Column<long>(type: "INTEGER", nullable: true),
                    part_id = table.Column<long>(type: "INTEGER", nullable: true),
                    bundle = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: true),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_load_item", x => x.id);
                    table.ForeignKey(
                        name: "fk_load_item_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_load_item_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_load_item_freezer_load_load_id",
                        column: x => x.load_id,
                        principalTable: "freezer_load",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_load_item_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_load_item_part_part_id",
                        column: x => x.part_id,
                        principalTable: "part",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "parcel_clearance",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    parcel_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    cleared_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    cleared_by = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    may_open_from = table.Column<DateTime>(type: "TEXT", nullable: false),
                    load_id = table.Column<long>(type: "INTEGER", nullable: true),
                    house_rule_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parcel_clearance", x => x.id);
                    table.ForeignKey(
                        name: "fk_parcel_clearance_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_clearance_freezer_load_load_id",
                        column: x => x.load_id,
                        principalTable: "freezer_load",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_parcel_clearance_house_rule_house_rule_id",
                        column: x => x.house_rule_id,
                        principalTable: "house_rule",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_parcel_clearance_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "parcel_of_batch",
                columns: table => new
                {
                    id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    batch_id = table.Column<long>(type: "INTEGER", nullable: false),
                    parcel_id = table.Column<long>(type: "INTEGER", nullable: false),
                    act_id = table.Column<long>(type: "INTEGER", nullable: false),
                    untied_act_id = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parcel_of_batch", x => x.id);
                    table.ForeignKey(
                        name: "fk_parcel_of_batch_act_act_id",
                        column: x => x.act_id,
                        principalTable: "act",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_of_batch_act_untied_act_id",
                        column: x => x.untied_act_id,
                        principalTable: "act",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_parcel_of_batch_batch_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batch",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_parcel_of_batch_parcel_parcel_id",
                        column: x => x.parcel_id,
                        principalTable: "parcel",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.InsertData(
                table: "regime",
                columns: new[] { "id", "act_id", "cycles", "edition", "exposure_hours", "interval_hours", "name", "open_after_hours", "source", "threshold_celsius" },
                values: new object[,]
                {
                    { 1L, null, 1, 1, 72, 0, "Three days at −30", 24, "Practice of two national collections, told on a collections discussion list in 2000 and 2018; from memory also Canadian and British conservation guidance", -30m },
                    { 2L, null, 1, 1, 168, 0, "A week at −20", 24, "Strang 1992, as cited in NPS Conserve O Gram 3/6 (1994): 6 to 10 days at −20 °C are enough for most museum pests", -20m },
                    { 3L, null, 1, 1, 336, 0, "Two weeks at −18", 24, "A museum conservator on a discussion list: 14 days at least for dense material, and its middle must get there", -18m },
                    { 4L, null, 2, 1, 48, 24, "Two times two days at −20", 24, "NPS Conserve O Gram 3/6 (1994) for two times 48 h; the warm interval is common practice, no published source", -20m }
                });

            migrationBuilder.InsertData(
                table: "step_plan",
                columns: new[] { "id", "act_id", "edition", "kind" },
                values: new object[] { 1L, null, 1, "sheet" });

            migrationBuilder.InsertData(
                table: "tag_counter",
                columns: new[] { "kind", "next", "year" },
                values: new object[,]
                {
                    { "Load", 1, 0 },
                    { "Parcel", 1, 0 }
                });

            migrationBuilder.InsertData(
                table: "planned_step",
                columns: new[] { "plan_id", "position", "after", "step" },
                values: new object[,]
                {
                    { 1L, 1, "", "Treated" },
                    { 1L, 2, "", "Numbered" },
                    { 1L, 3, "", "Mounted" },
                    { 1L, 4, "Numbered", "Labelled" },
                    { 1L, 5, "Numbered Mounted", "Imaged" },
                    { 1L, 6, "Numbered Treated Mounted Labelled", "Filed" }
                });

            migrationBuilder.CreateIndex(
                name: "ix_part_load_id",
                table: "part",
                column: "load_id",
                filter: "load_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_part_next_step_id",
                table: "part",
                columns: new[] { "next_step", "id" },
                filter: "next_step IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_part_parcel_id",
                table: "part",
                column: "parcel_id",
                filter: "parcel_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_clearance_entry_act_id",
                table: "clearance_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_clearance_entry_house_rule_id",
                table: "clearance_entry",
                column: "house_rule_id");

            migrationBuilder.CreateIndex(
                name: "ix_clearance_entry_load_id",
                table: "clearance_entry",
                column: "load_id");

            migrationBuilder.CreateIndex(
                name: "ix_clearance_entry_parcel_id",
                table: "clearance_entry",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_clearance_entry_part_id",
                table: "clearance_entry",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_freezer_act_id",
                table: "freezer",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_freezer_name",
                table: "freezer",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_freezer_load_number",
                table: "freezer_load",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_freezer_load_regime_id",
                table: "freezer_load",
                column: "regime_id");

            migrationBuilder.CreateIndex(
                name: "ix_freezer_load_repeats_id",
                table: "freezer_load",
                column: "repeats_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_freezer_load_running",
                table: "freezer_load",
                column: "freezer_id",
                unique: true,
                filter: "standing = 'Running'");

            migrationBuilder.CreateIndex(
                name: "ix_freezer_load_standing_id",
                table: "freezer_load",
                columns: new[] { "standing", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_house_rule_act_id",
                table: "house_rule",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_house_rule_ended_act_id",
                table: "house_rule",
                column: "ended_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_house_rule_hours_house_rule_id",
                table: "house_rule_hours",
                column: "house_rule_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_entry_act_id",
                table: "load_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_entry_house_rule_id",
                table: "load_entry",
                column: "house_rule_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_entry_load_id",
                table: "load_entry",
                column: "load_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_item_act_id",
                table: "load_item",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_item_batch_id",
                table: "load_item",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_item_load_id_part_id",
                table: "load_item",
                columns: new[] { "load_id", "part_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_load_item_parcel_id",
                table: "load_item",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_load_item_part_id",
                table: "load_item",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_act_id",
                table: "parcel",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_cleared_at_id",
                table: "parcel",
                columns: new[] { "cleared_at", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_parcel_load_id",
                table: "parcel",
                column: "load_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_source_id",
                table: "parcel",
                column: "source_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_tag",
                table: "parcel",
                column: "tag",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_parcel_year_number",
                table: "parcel",
                columns: new[] { "year", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_parcel_clearance_act_id",
                table: "parcel_clearance",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_clearance_house_rule_id",
                table: "parcel_clearance",
                column: "house_rule_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_clearance_load_id",
                table: "parcel_clearance",
                column: "load_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_clearance_parcel_id",
                table: "parcel_clearance",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_of_batch_act_id",
                table: "parcel_of_batch",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_of_batch_batch_id_parcel_id",
                table: "parcel_of_batch",
                columns: new[] { "batch_id", "parcel_id" },
                unique: true,
                filter: "untied_act_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_of_batch_parcel_id",
                table: "parcel_of_batch",
                column: "parcel_id");

            migrationBuilder.CreateIndex(
                name: "ix_parcel_of_batch_untied_act_id",
                table: "parcel_of_batch",
                column: "untied_act_id");

            migrationBuilder.CreateIndex(
                name: "ix_place_act_id",
                table: "place",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_place_name",
                table: "place",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_place_entry_act_id",
                table: "place_entry",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_place_entry_part_id",
                table: "place_entry",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_place_entry_place_id",
                table: "place_entry",
                column: "place_id");

            migrationBuilder.CreateIndex(
                name: "ix_regime_act_id",
                table: "regime",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_regime_name_edition",
                table: "regime",
                columns: new[] { "name", "edition" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_step_plan_act_id",
                table: "step_plan",
                column: "act_id");

            migrationBuilder.CreateIndex(
                name: "ix_step_plan_kind_edition",
                table: "step_plan",
                columns: new[] { "kind", "edition" },
                unique: true);

            foreach (var statement in Accession.Storage.Specimens.PartsFromBefore.Statements)
            {
                migrationBuilder.Sql(statement);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "clearance_entry");

            migrationBuilder.DropTable(
                name: "house_rule_hours");

            migrationBuilder.DropTable(
                name: "load_entry");

            migrationBuilder.DropTable(
                name: "load_item");

            migrationBuilder.DropTable(
                name: "parcel_clearance");

            migrationBuilder.DropTable(
                name: "parcel_of_batch");

            migrationBuilder.DropTable(
                name: "place_entry");

            migrationBuilder.DropTable(
                name: "planned_step");

            migrationBuilder.DropTable(
                name: "tag_counter");

            migrationBuilder.DropTable(
                name: "house_rule");

            migrationBuilder.DropTable(
                name: "parcel");

            migrationBuilder.DropTable(
                name: "place");

            migrationBuilder.DropTable(
                name: "step_plan");

            migrationBuilder.DropTable(
                name: "freezer_load");

            migrationBuilder.DropTable(
                name: "freezer");

            migrationBuilder.DropTable(
                name: "regime");

            migrationBuilder.DropIndex(
                name: "ix_part_load_id",
                table: "part");

            migrationBuilder.DropIndex(
                name: "ix_part_next_step_id",
                table: "part");

            migrationBuilder.DropIndex(
                name: "ix_part_parcel_id",
                table: "part");

            migrationBuilder.DropColumn(
                name: "mark",
                table: "step_entry");

            migrationBuilder.DropColumn(
                name: "came_from_outside_at",
                table: "part");

            migrationBuilder.DropColumn(
                name: "cleared_at",
                table: "part");

            migrationBuilder.DropColumn(
                name: "cleared_by",
                table: "part");

            migrationBuilder.DropColumn(
                name: "load_id",
                table: "part");

            migrationBuilder.DropColumn(
                name: "may_open_from",
                table: "part");

            migrationBuilder.DropColumn(
                name: "next_step",
                table: "part");

            migrationBuilder.DropColumn(
                name: "parcel_id",
                table: "part");

            migrationBuilder.DropColumn(
                name: "place_id",
                table: "part");

            migrationBuilder.DropColumn(
                name: "plan_id",
                table: "part");

            migrationBuilder.DropColumn(
                name: "zone",
                table: "part");
        }
    }
}
