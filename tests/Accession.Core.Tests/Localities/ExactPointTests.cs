using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

/// <summary>The law: an exact point prints nothing and has no converter.</summary>
public class ExactPointTests
{
    private static readonly ExactPoint Spring = Coordinates.Read("43.58642, -119.05417").Value.WithUncertainty(30);

    [Fact]
    public void Prints_nothing()
    {
        Assert.Equal("(exact point)", Spring.ToString());
        Assert.Equal("(exact point)", $"{Spring}");
        Assert.Equal("(exact point)", string.Format(CultureInfo.InvariantCulture, "{0:G}", Spring));
    }

    [Fact]
    public void Serialises_without_its_place()
    {
        var json = JsonSerializer.Serialize(Spring);
        Assert.DoesNotContain("43.5", json, StringComparison.Ordinal);
        Assert.DoesNotContain("119", json, StringComparison.Ordinal);
    }

    [Fact]
    public void Has_no_public_member_that_gives_a_number_or_text_of_the_place()
    {
        string[] harmless =
        [
            "get_Precision", "get_UncertaintyInMeters", "WithUncertainty",
            nameof(Equals), nameof(GetHashCode), nameof(ToString), nameof(GetType),
        ];
        var members = typeof(ExactPoint).GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static);
        Assert.Equal([], members.Select(m => m.Name).Distinct().Except(harmless));
        Assert.Empty(typeof(ExactPoint).GetFields(BindingFlags.Public | BindingFlags.Instance));
        Assert.Empty(typeof(ExactPoint).GetConstructors());
        Assert.Equal([typeof(IEquatable<ExactPoint>)], typeof(ExactPoint).GetInterfaces());
        Assert.DoesNotContain(typeof(ExactPoint).GetCustomAttributes(inherit: true),
            a => a.GetType().Name.Contains("Converter", StringComparison.Ordinal));
    }

    [Fact]
    public void Only_blurring_makes_a_public_point()
    {
        Assert.Empty(typeof(PublicPoint).GetConstructors());
        var makers = typeof(ExactPoint).Assembly.GetExportedTypes()
            .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static))
            .Where(m => m.ReturnType == typeof(PublicPoint) && m.DeclaringType != typeof(PublicPoint));
        Assert.Equal(["Blurring.Of"], makers.Select(m => $"{m.DeclaringType!.Name}.{m.Name}"));
    }

    [Fact]
    public void The_server_may_not_name_the_numbers()
    {
        var friends = typeof(ExactPoint).Assembly
            .GetCustomAttributes<System.Runtime.CompilerServices.InternalsVisibleToAttribute>()
            .Select(a => a.AssemblyName);
        Assert.Equal([], friends.Except(["Accession.Storage", "Accession.Core.Tests"]));
    }

    [Fact]
    public void Messages_about_impossible_points_keep_the_numbers_out()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(
            () => new ExactPoint(91.2345m, 0, CoordinatePrecision.Degree));
        Assert.DoesNotContain("91", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Spring.WithUncertainty(0));
    }

    [Fact]
    public void The_same_place_in_another_notation_is_equal()
    {
        Assert.Equal(Coordinates.Read("43.58642 N, 119.05417 W").Value, Coordinates.Read("43,58642; -119,05417").Value);
        Assert.NotEqual(Spring, Spring.WithUncertainty(31));
    }
}
