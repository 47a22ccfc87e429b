using System.CommandLine;
using Accession.Server.Administering;
using Accession.Server.Hosting;

var accession = new RootCommand("Accession keeps a herbarium's sheets, numbers, field notes and names together.")
{
    ServeCommand.Create(),
};

return await StartErrors.InOneSentenceAsync(() => accession.Parse(args).InvokeAsync(StartErrors.AreOurs));
