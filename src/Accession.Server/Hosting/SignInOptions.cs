using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Hosting;

/// <summary>Settings of signing in, read from the section <c>SignIn</c>.</summary>
public sealed class SignInOptions
{
    /// <summary>
    /// How many requests to the pages for signing in one address may make in a minute; more where a whole course comes
    /// from one address. The default is 60.
    /// </summary>
    [Range(10, 10_000)]
    public int TriesPerMinute { get; set; } = 60;
}
