using System.Reflection;
using System.Runtime.CompilerServices;
using Accession.Core.Outcomes;

namespace Accession.Storage.Tests.Boundaries;

/// <summary>Core knows the runtime only, Storage knows Core; and nothing in Core remembers anything.</summary>
public sealed class AssemblyTests
{
    // Assemblies of the bare runtime have its directory; those of ASP.NET Core and of packages have another.
    private static readonly string Runtime = Path.GetDirectoryName(typeof(object).Assembly.Location)!;

    [Fact]
    public void Core_refers_to_the_runtime_only() =>
        Assert.Equal([], typeof(Act).Assembly.GetReferencedAssemblies().Where(name => !IsRuntime(name)));

    [Fact]
    public void Of_ours_Storage_refers_to_Core_only() =>
        Assert.Equal(["Accession.Core"], OursIn(typeof(AccessionDb).Assembly));

    [Fact]
    public void An_assembly_that_knows_more_is_noticed()
    {
        var storage = typeof(AccessionDb).Assembly.GetReferencedAssemblies();
        Assert.Contains(storage, name => name.Name == "Microsoft.EntityFrameworkCore" && !IsRuntime(name));
        Assert.Contains("Accession.Storage", OursIn(typeof(AssemblyTests).Assembly));
    }

    // Lists that are filled while their type is made, and never afterwards.
    private static readonly string[] Settled = ["ListField.Known"];

    [Fact]
    public void Core_has_no_static_state_that_changes() =>
        Assert.Equal([], typeof(Act).Assembly.GetTypes().SelectMany(ChangingStatics).Except(Settled));

    [Fact]
    public void Static_state_that_changes_is_noticed() => Assert.Equal(
        ["Sample.Counter", "Sample.Seen"], ChangingStatics(typeof(Sample)).Order(StringComparer.Ordinal));

    private static IEnumerable<string> ChangingStatics(Type type) => type
        .GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly)
        .Where(field => !field.IsLiteral
            && !IsCompilers(field.Name) && !IsCompilers(type.FullName!)
            && !type.IsDefined(typeof(CompilerGeneratedAttribute))
            && (!field.IsInitOnly || IsChangingCollection(field.FieldType)))
        .Select(field => $"{type.Name}.{field.Name}");

    // Names that no source can contain are the compiler's: cached lambdas, arrays of constants. A property's own field
    // is named after it and counts.
    private static bool IsCompilers(string name) =>
        name.Contains('<', StringComparison.Ordinal) && !name.EndsWith("k__BackingField", StringComparison.Ordinal);

    private static bool IsChangingCollection(Type type) => type.IsGenericType
        && (type.GetGenericTypeDefinition() is var kind)
        && (kind == typeof(List<>) || kind == typeof(Dictionary<,>) || kind == typeof(HashSet<>)
            || kind.Namespace == "System.Collections.Concurrent");

    private static IEnumerable<string> OursIn(Assembly assembly) => assembly.GetReferencedAssemblies()
        .Select(name => name.Name!).Where(name => name.StartsWith("Accession.", StringComparison.Ordinal));

    private static bool IsRuntime(AssemblyName name) => File.Exists(Path.Combine(Runtime, name.Name + ".dll"));

    private static class Sample
    {
        public const int Fixed = 1;
        public static readonly IReadOnlyList<int> Given = [1, 2];
        public static readonly List<int> Seen = [];
        public static int Counter = Fixed;
    }
}
