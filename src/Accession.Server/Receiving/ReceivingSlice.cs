using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage.Matching;
using Accession.Storage.Numbers;

namespace Accession.Server.Receiving;

internal static class ReceivingSlice
{
    public static IServiceCollection AddReceiving(this IServiceCollection services)
    {
        services.AddSettings<ReceivingOptions>("Receiving");
        return services
            .AddSingleton<ReceivedFiles>()
            .AddScoped<NumberIssuer>()
            .AddSingleton<ListReaders>()
            .AddScoped<ReceiveList>()
            .AddScoped<ReadList>()
            .AddScoped<BeginPile>()
            .AddScoped<KeyLabel>()
            .AddScoped<SettleList>()
            .AddScoped<TakeAsWritten>()
            .AddScoped<CorrectTakenIn>()
            .AddScoped<TellLists>()
            .AddScoped<MatchTable>()
            .AddScoped<PersonsInFinding>()
            .AddScoped<SignGatherings>()
            .AddScoped<FindDuplicates>()
            .AddScoped<JudgedPairs>()
            .AddScoped<EstimateWeights>()
            .AddScoped<FoundRows>()
            .AddScoped<CheckList>()
            .AddScoped<AskCollector>()
            .AddScoped<SettleFinding>()
            .AddScoped<ReopenFinding>()
            .AddScoped<TakeIn>()
            .AddScoped<TakeInSlice>()
            .AddScoped<GatheringsOfRows>()
            .AddScoped<AccessionNumbers>()
            .AddScoped<BorneNumbers>()
            .AddScoped<SeriesBehindBorne>()
            .AddScoped<TakeOver>()
            .AddScoped<TakeOverSlice>()
            .AddSingleton<PaperFiles>()
            .AddScoped<KeepPaper>()
            .AddScoped<SetPaperAside>()
            .AddScoped<WritePermit>()
            .AddScoped<SetPermitAside>()
            .AddScoped<CloseBatch>()
            .AddScoped<ReopenBatch>()
            .AddWork<ReadListWork>(ReadListWork.Kind, AfterRestore.GoesOn)
            .AddWork<RereadRowsWork>(RereadRowsWork.Kind, AfterRestore.GoesOn)
            .AddWork<FindDuplicatesWork>(FindDuplicatesWork.Kind, AfterRestore.GoesOn)
            .AddWork<SignGatheringsWork>(SignGatheringsWork.Kind, AfterRestore.GoesOn)
            .AddWork<ComparePermitsWork>(ComparePermitsWork.Kind, AfterRestore.GoesOn)
            .AddWork<TakeInRowsWork>(TakeInRowsWork.Kind, AfterRestore.GoesOn)
            .AddWork<TakeOverRowsWork>(TakeOverRowsWork.Kind, AfterRestore.GoesOn);
    }
}
