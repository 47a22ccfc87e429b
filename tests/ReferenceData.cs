namespace Accession.Tests;

/// <summary>
/// The one place that knows where published standards and open data lie for the checks against the outside world.
/// The program never needs them; where the folder is missing, the checks that want it say so and are skipped,
/// except in continuous integration, where everything is required.
/// </summary>
internal static class ReferenceData
{
    /// <summary>The folder: from ACCESSION_REFERENCE_DATA, or "shared" beside the checkout.</summary>
    public static string Folder { get; } =
        Environment.GetEnvironmentVariable("ACCESSION_REFERENCE_DATA") is { Length: > 0 } folder
            ? folder
            : Path.GetFullPath(Path.Combine(CheckoutRoot(), "..", "shared"));

    /// <summary>The path of a reference file or folder; skips the test when it is not on this machine.</summary>
    public static string Require(params string[] parts)
    {
        var path = Path.Combine([Folder, .. parts]);
        var missing = !File.Exists(path) && !Directory.Exists(path);
        if (missing && Environment.GetEnvironmentVariable("CI") == "true")
        {
            Assert.Fail($"Reference data are required here, and {Path.Combine(parts)} is missing from {Folder}.");
        }

        Assert.SkipWhen(missing, $"Needs the reference file {Path.Combine(parts)} (set ACCESSION_REFERENCE_DATA).");
        return path;
    }

    /// <summary>The folder that holds Accession.sln.</summary>
    public static string CheckoutRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Accession.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The tests do not run inside a checkout: Accession.sln was not found.");
    }
}
