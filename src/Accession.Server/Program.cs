using System.CommandLine;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Server.Publishing;
using Accession.Server.Receiving;

var accession = new RootCommand("Accession keeps a herbarium's sheets, numbers, field notes and names together.")
{
    ServeCommand.Create(),
    ReceiveCommand.Create(),
    CheckCommand.Create(),
    ExportCommand.Create(),
    UserCommand.Create(),
    BackupCommand.Create(),
    RestoreCommand.Create(),
    VerifyCommand.Create(),
    WeighCommand.Create(),
    MigrateCommand.Create(),
    DemoCommand.Create(),
};

CommandWithExamples.ShowIn(accession);
return await CommandAnswers.RunAsync(accession, args);
