using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Accession.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class WordsToFindBy : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "find_text",
                table: "specimen",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "ix_specimen_without_words",
                table: "specimen",
                column: "id",
                filter: "find_text = ''");

            // The words of a sheet lie in its row; FTS5 keeps the index over them, in the transaction that changes the row.
            migrationBuilder.Sql("""
                CREATE VIRTUAL TABLE specimen_find USING fts5(
                    find_text, content='specimen', content_rowid='id', tokenize='unicode61 remove_diacritics 2');
                INSERT INTO specimen_find (specimen_find) VALUES ('rebuild');
                CREATE TRIGGER specimen_find_added AFTER INSERT ON specimen BEGIN
                    INSERT INTO specimen_find (rowid, find_text) VALUES (new.id, new.find_text);
                END;
                CREATE TRIGGER specimen_find_taken AFTER DELETE ON specimen BEGIN
                    INSERT INTO specimen_find (specimen_find, rowid, find_text) VALUES ('delete', old.id, old.find_text);
                END;
                CREATE TRIGGER specimen_find_changed AFTER UPDATE OF find_text ON specimen
                WHEN old.find_text <> new.find_text BEGIN
                    INSERT INTO specimen_find (specimen_find, rowid, find_text) VALUES ('delete', old.id, old.find_text);
                    INSERT INTO specimen_find (rowid, find_text) VALUES (new.id, new.find_text);
                END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                DROP TRIGGER specimen_find_changed;
                DROP TRIGGER specimen_find_taken;
                DROP TRIGGER specimen_find_added;
                DROP TABLE specimen_find;
                """);

            migrationBuilder.DropIndex(
                name: "ix_specimen_without_words",
                table: "specimen");

            migrationBuilder.DropColumn(
                name: "find_text",
                table: "specimen");
        }
    }
}
