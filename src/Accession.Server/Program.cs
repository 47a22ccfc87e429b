using System.CommandLine;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Server.Publishing;

var accession = new RootCommand("Accession keeps a herbarium's sheets, numbers, field notes and names together.")
{
    ServeCommand.Create(),
    ExportCommand.Create(),
    VerifyCommand.Create(),
    BackupCommand.Create(),
    RestoreCommand.Create(),
};

return await StartErrors.InOneSentenceAsync(() => accession.Parse(args).InvokeAsync(StartErrors.AreOurs));
