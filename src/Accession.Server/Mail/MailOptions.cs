using System.ComponentModel.DataAnnotations;
using System.Net;

namespace Accession.Server.Mail;

/// <summary>How letters leave the house, read from the section <c>Mail</c>.</summary>
public sealed class MailOptions
{
    /// <summary>
    /// Where letters go: <c>Files</c> (the default, a file for each in the data folder, nothing leaves the machine) or
    /// <c>Smtp</c>, a mail server.
    /// </summary>
    public MailKind Kind { get; set; } = MailKind.Files;

    /// <summary>The mail server's name or address; needed with <c>Smtp</c>.</summary>
    [StringLength(255)]
    public string? Host { get; set; }

    /// <summary>The mail server's port. The default is 587.</summary>
    [Range(1, 65535)]
    public int Port { get; set; } = 587;

    /// <summary>
    /// How the connection is made safe: <c>StartTls</c> (the default), <c>Tls</c> from the first byte, or <c>None</c>.
    /// The server's certificate is checked.
    /// </summary>
    public MailSecurity Security { get; set; } = MailSecurity.StartTls;

    /// <summary>The name under which to sign in at the mail server; without one nobody signs in.</summary>
    public string? User { get; set; }

    /// <summary>The password that belongs to it; for the environment, never for the command line.</summary>
    public string? Password { get; set; }

    /// <summary>A file whose first line is the password, instead of <see cref="Password"/>.</summary>
    public string? PasswordFile { get; set; }

    /// <summary>The address that letters come from; needed with <c>Smtp</c>.</summary>
    public string? From { get; set; }

    /// <summary>The address that answers go to; the default is <see cref="From"/>.</summary>
    public string? ReplyTo { get; set; }

    /// <summary>How long one letter may take at the mail server, in seconds. The default is 20.</summary>
    [Range(1, 25)]   // within the lease of the work: two processes never send one letter at a time
    public int TimeoutSeconds { get; set; } = 20;

    /// <summary>
    /// The pause after a failed try, in seconds; each further one is twice as long, up to four hours. The default is
    /// 30.
    /// </summary>
    [Range(1, 3600)]
    public int FirstPauseSeconds { get; set; } = 30;

    internal TimeSpan Timeout => TimeSpan.FromSeconds(TimeoutSeconds);

    internal TimeSpan FirstPause => TimeSpan.FromSeconds(FirstPauseSeconds);

    /// <summary>
    /// Whether the password would cross a network in the clear; to this machine itself it does not cross any.
    /// </summary>
    internal bool SendsPasswordInTheClear => User is not null && Security == MailSecurity.None
        && !(Host == "localhost" || (IPAddress.TryParse(Host, out var address) && IPAddress.IsLoopback(address)));

    /// <summary>The password; null when nobody signs in.</summary>
    /// <exception cref="IOException">The file cannot be read any more.</exception>
    internal string? ReadPassword() =>
        PasswordFile is null ? Password : File.ReadLines(PasswordFile).FirstOrDefault() ?? "";

    internal bool CanReadPassword()
    {
        try
        {
            return !string.IsNullOrEmpty(ReadPassword());
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}

/// <summary>Where letters go.</summary>
public enum MailKind
{
    /// <summary>A file for each letter in the data folder.</summary>
    Files,

    /// <summary>A mail server.</summary>
    Smtp,
}

/// <summary>How the connection to the mail server is made safe.</summary>
public enum MailSecurity
{
    /// <summary>In the clear, then safe before anything is said.</summary>
    StartTls,

    /// <summary>Safe from the first byte.</summary>
    Tls,

    /// <summary>Not at all: for a mail server on this machine.</summary>
    None,
}
