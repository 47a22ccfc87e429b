using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace Accession.Storage.Conversions;

/// <summary>
/// Tables and columns are named in snake case on both databases: the bulk statements are written by hand, and
/// PostgreSQL would want every capital quoted.
/// </summary>
internal static class SnakeCase
{
    public static void Apply(ModelBuilder builder)
    {
        foreach (var entity in builder.Model.GetEntityTypes())
        {
            // What is kept inside a JSON column has neither table nor columns of its own.
            if (entity.GetTableName() is { } table && !entity.IsMappedToJson())
            {
                entity.SetTableName(Of(table));
                Apply(entity);
            }
        }
    }

    private static void Apply(IMutableTypeBase type)
    {
        foreach (var property in type.GetProperties())
        {
            property.SetColumnName(Of(property.GetColumnName()));
        }

        foreach (var complex in type.GetComplexProperties())
        {
            Apply(complex.ComplexType);
        }

        if (type is IMutableEntityType entity)
        {
            foreach (var key in entity.GetKeys())
            {
                key.SetName(Of(key.GetName()!));
            }

            foreach (var foreignKey in entity.GetForeignKeys())
            {
                foreignKey.SetConstraintName(Of(foreignKey.GetConstraintName()!));
            }

            foreach (var index in entity.GetIndexes())
            {
                index.SetDatabaseName(Of(index.GetDatabaseName()!));
            }
        }
    }

    private static string Of(string name)
    {
        var snake = new StringBuilder(name.Length + 8);
        for (var i = 0; i < name.Length; i++)
        {
            var startsWord = char.IsUpper(name[i]) && i > 0 && name[i - 1] != '_'
                && (char.IsLower(name[i - 1]) || (i + 1 < name.Length && char.IsLower(name[i + 1])));
            if (startsWord)
            {
                snake.Append('_');
            }

            snake.Append(char.ToLowerInvariant(name[i]));
        }

        return snake.ToString();
    }
}
