using Accession.Storage.Localities;

namespace Accession.Server.Tracking;

internal static class TrackingSlice
{
    public static IServiceCollection AddTracking(this IServiceCollection services) => services
        .AddScoped<ExactLocalities>()
        .AddScoped<ProtectedPlaces>()
        .AddScoped<ProtectLocality>()
        .AddScoped<Corrections>()
        .AddScoped<CorrectedRecords>()
        .AddScoped<CorrectRecord>()
        .AddScoped<CorrectMany>()
        .AddScoped<TakeCorrectionsBack>()
        .AddSingleton<SheetStatements>()
        .AddSingleton<SpecimenTrail>()
        .AddScoped<ReadSpecimen>()
        .AddScoped<FindSheets>()
        .AddScoped<OwnGatherings>()
        .AddScoped<Shared.PrivateLinks>()
        .AddScoped<MendedNames>()
        .AddScoped<RecordPerson>()
        .AddScoped<PersonInHand>()
        .AddScoped<SharedSpellings>()
        .AddScoped<FoundAnew>()
        .AddScoped<StatePersonYears>()
        .AddScoped<StateNumberingHabit>()
        .AddScoped<MergePersons>()
        .AddScoped<SplitPerson>()
        .AddScoped<CollectorHoldings>()
        .AddScoped<ReadCollector>()
        .AddScoped<RegisterSheets>();
}
