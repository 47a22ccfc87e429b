using System.Net;
using System.Net.Sockets;
using Accession.Tests;

namespace Accession.Server.Tests.Hosting;

/// <summary>A wrong setting stops the start with one sentence that names it, and exit code 2.</summary>
public sealed class WrongSettingTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("accession-test-").FullName;

    [Theory]
    [InlineData("Receiving:MaximumFileMegabytes=0", "Receiving:MaximumFileMegabytes")]              // out of range
    [InlineData("Receiving:MaximumFileMegabytes=many", "Receiving:MaximumFileMegabytes")]           // not a number
    [InlineData("Receiving:MaximumFileMegabyte=50", "MaximumFileMegabyte")]                         // misspelt name
    [InlineData("Recieving:MaximumFileMegabytes=50", "Recieving")]                                  // misspelt section
    [InlineData("Store:Kind=Sqlight", "Store:Kind")]                                                // not a choice
    [InlineData("Store:Kind=PostgreSql", "Store:Connection")]                                       // without the other
    [InlineData("Store:Kind=PostgreSql;Store:Connection=Host=127.0.0.1;Port=1", "Store:Connection")]   // nobody there
    [InlineData("Store:Kind=PostgreSql;Store:Connection=nonsense", "Store:Connection")]             // not readable
    [InlineData("Store:PublicRole=everyone", "leave it out, or set Store:Kind to PostgreSql")]
    [InlineData("Store:PublicRole=", "Store:PublicRole")]
    [InlineData("Institution:TimeZone=Mars/Olympus", "Institution:TimeZone")]
    [InlineData("Institution:InstitutionCode=a b", "Institution:InstitutionCode")]
    [InlineData("Institution:Licence=mine", "Institution:Licence")]
    [InlineData("Institution:Name=", "Institution:Name")]
    [InlineData("Mail:Kind=Pigeon", "Mail:Kind")]
    [InlineData("Mail:Kind=Smtp;Mail:From=a@b.example", "Mail:Host")]
    [InlineData("Mail:Kind=Smtp;Mail:Host=mail.example", "Mail:From")]
    [InlineData("Mail:From=nobody", "Mail:From is not one mail address")]
    [InlineData("Mail:ReplyTo=a@b.example, c@d.example", "Mail:ReplyTo is not one mail address")]
    [InlineData("Mail:Port=0", "Mail:Port")]
    [InlineData("Mail:Security=Perhaps", "Mail:Security")]
    [InlineData("Mail:User=bench", "Mail:Password or Mail:PasswordFile")]
    [InlineData("Mail:Password=secret", "Mail:User")]
    [InlineData("Mail:User=bench;Mail:PasswordFile=/no/such/file", "Mail:PasswordFile cannot be read")]
    [InlineData("Mail:User=a;Mail:Password=b;Mail:PasswordFile=c", "Mail:Password and Mail:PasswordFile")]
    [InlineData("Mail:User=a;Mail:Password=b;Mail:Security=None;Mail:Host=mail.example", "in the clear")]
    [InlineData("Mail:TimeoutSeconds=26", "Mail:TimeoutSeconds")]
    [InlineData("MaximumFileMegabytes=5", "Section:Name=value")]
    [InlineData("Nonsense", "Section:Name=value")]
    public async Task Is_named(string setting, string named) => AssertOneSentence(
        await StartAsync([.. SettingsOf(setting).SelectMany(one => new[] { "--set", one })]), named);

    [Fact]
    public async Task Is_found_in_a_file_that_is_not_JSON()
    {
        await File.WriteAllTextAsync(Path.Combine(_folder, "accession.json"), """{ "Institution": """);
        AssertOneSentence(await StartAsync(), "accession.json");
    }

    [Fact]
    public async Task Is_a_file_that_is_not_there() =>
        AssertOneSentence(await StartAsync("--settings", Path.Combine(_folder, "none.json")), "none.json");

    [Fact]
    public async Task Is_a_data_folder_that_is_a_file()
    {
        await File.WriteAllTextAsync(Path.Combine(_folder, "a-file"), "");
        AssertOneSentence(
            await ServerProcess.RunAsync("serve", "--data", Path.Combine(_folder, "a-file"), "--urls", "http://127.0.0.1:0"),
            "a-file");
    }

    [Fact]
    public async Task Is_a_register_that_is_no_database()
    {
        await File.WriteAllTextAsync(Path.Combine(_folder, "register.db"), new string('x', 5000));
        AssertOneSentence(await StartAsync(), "not a database");
    }

    [Fact]
    public async Task Is_an_address_that_another_program_has()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;
        AssertOneSentence(
            await ServerProcess.RunAsync("serve", "--data", _folder, "--urls", $"http://127.0.0.1:{port}"), "--urls");
    }

    [Fact]
    public async Task Is_an_address_that_is_none() => AssertOneSentence(
        await ServerProcess.RunAsync("serve", "--data", _folder, "--urls", "somewhere"), "--urls");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Task<(int ExitCode, string Said)> StartAsync(params string[] more) =>
        ServerProcess.RunAsync(["serve", "--data", _folder, "--urls", "http://127.0.0.1:0", .. more]);

    // A connection has semicolons of its own, so a further setting begins with a section.
    private static string[] SettingsOf(string settings) => System.Text.RegularExpressions.Regex.Split(settings, ";(?=[A-Z][a-z]+:)");

    private static void AssertOneSentence((int ExitCode, string Said) start, string named)
    {
        Assert.True(start.ExitCode == 2, start.Said);
        Assert.StartsWith("Accession did not start. ", start.Said, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', start.Said);
        Assert.Contains(named, start.Said, StringComparison.Ordinal);
        Assert.EndsWith(".", start.Said, StringComparison.Ordinal);
    }
}
