using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Determinations;
using Accession.Core.FreezerLoads;
using Accession.Core.Gatherings;
using Accession.Core.Letters;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.People;
using Accession.Core.Specimens;
using Accession.Storage.Accounts;
using Accession.Storage.Conversions;
using Accession.Storage.Databases;
using Accession.Storage.Finding;
using Accession.Storage.Work;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage;

/// <summary>The register. Operations use it directly; only <c>Databases</c> knows which database runs.</summary>
public sealed partial class AccessionDb(
    DbContextOptions<AccessionDb> options, IDatabase database, WorkBell bell)
    : IdentityDbContext<Account, IdentityRole, string>(options), IDataProtectionKeyContext
{
    /// <summary>What differs between the databases, for the bulk paths.</summary>
    public IDatabase Kind => database;

    public DbSet<Act> Acts => Set<Act>();

    public DbSet<WorkRow> Work => Set<WorkRow>();

    public DbSet<SignInLink> SignInLinks => Set<SignInLink>();

    public DbSet<AccountCounty> AccountCounties => Set<AccountCounty>();

    public DbSet<Person> Persons => Set<Person>();

    public DbSet<PersonSpelling> PersonSpellings => Set<PersonSpelling>();

    public DbSet<PersonMerge> PersonMerges => Set<PersonMerge>();

    public DbSet<AccountTie> AccountTies => Set<AccountTie>();

    public DbSet<ApiToken> ApiTokens => Set<ApiToken>();

    public DbSet<Badge> Badges => Set<Badge>();

    public DbSet<BenchShift> BenchShifts => Set<BenchShift>();

    public DbSet<PrivateLink> PrivateLinks => Set<PrivateLink>();

    public DbSet<Source> Sources => Set<Source>();

    public DbSet<Batch> Batches => Set<Batch>();

    public DbSet<ReceivedList> Lists => Set<ReceivedList>();

    public DbSet<BatchRow> Rows => Set<BatchRow>();

    public DbSet<RowProblem> Problems => Set<RowProblem>();

    public DbSet<FoundMember> FoundMembers => Set<FoundMember>();

    public DbSet<DecisionEntry> Decisions => Set<DecisionEntry>();

    public DbSet<ToldApart> ToldApart => Set<ToldApart>();

    public DbSet<SetAside> SetAside => Set<SetAside>();

    public DbSet<Letter> Letters => Set<Letter>();

    public DbSet<MailHold> MailHolds => Set<MailHold>();

    public DbSet<Paper> Papers => Set<Paper>();

    public DbSet<Permit> Permits => Set<Permit>();

    public DbSet<BatchClosing> Closings => Set<BatchClosing>();

    public DbSet<AccessionLot> Accessions => Set<AccessionLot>();

    public DbSet<Gathering> Gatherings => Set<Gathering>();

    public DbSet<Correction> Corrections => Set<Correction>();

    public DbSet<NumberSeries> Series => Set<NumberSeries>();

    public DbSet<ReadyNumber> ReadyNumbers => Set<ReadyNumber>();

    public DbSet<Roll> Rolls => Set<Roll>();

    public DbSet<VoidedNumbers> Voids => Set<VoidedNumbers>();

    public DbSet<VoidTakenBack> VoidsTakenBack => Set<VoidTakenBack>();

    public DbSet<Specimen> Specimens => Set<Specimen>();

    public DbSet<Determination> Determinations => Set<Determination>();

    public DbSet<Part> Parts => Set<Part>();

    public DbSet<StepPlan> StepPlans => Set<StepPlan>();

    public DbSet<Place> Places => Set<Place>();

    public DbSet<TagCounter> TagCounters => Set<TagCounter>();

    public DbSet<TagsLost> TagsLost => Set<TagsLost>();

    public DbSet<Parcel> Parcels => Set<Parcel>();

    public DbSet<ParcelOfBatch> ParcelsOfBatches => Set<ParcelOfBatch>();

    public DbSet<Freezer> Freezers => Set<Freezer>();

    public DbSet<Regime> Regimes => Set<Regime>();

    public DbSet<HouseRule> HouseRules => Set<HouseRule>();

    public DbSet<FreezerLoad> Loads => Set<FreezerLoad>();

    public DbSet<LoadItem> LoadItems => Set<LoadItem>();

    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    public override async Task<int> SaveChangesAsync(
        bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        if (NameWords.Added(this) is { Count: > 0 } names)
        {
            await NameWords.AddAsync(this, names, cancellationToken);
        }

        return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(AccessionDb).Assembly);
        SnakeCase.Apply(builder);
        database.DrawKeys(builder);
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcDateTimeConverter>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
    }
}
