namespace Accession.Server.Hosting;

/// <summary>How every command ends, in the one place that says so.</summary>
internal static class ExitCode
{
    /// <summary>Done; where something is looked for, nothing was found.</summary>
    public const int Done = 0;

    /// <summary>A rule said no, or it is not possible now; the reasons are on standard error.</summary>
    public const int Refused = 1;

    /// <summary>A setting or an argument is wrong, a file cannot be read, or the database is out of reach.</summary>
    public const int Wrong = 2;

    /// <summary>It ran to its end and found something to look at, or something is missing.</summary>
    public const int Found = 3;

    /// <summary>A defect of the program; the reference and the log are on standard error.</summary>
    public const int Defect = 70;

    /// <summary>As a shell counts a program that was interrupted.</summary>
    public const int Interrupted = 130;
}
