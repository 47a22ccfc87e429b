using Accession.Server.Hosting;
using Accession.Storage.Verifying;

namespace Accession.Server.Administering;

internal static class AdministeringSlice
{
    public static IServiceCollection AddAdministering(this IServiceCollection services) => services
        .AddScoped<People>()
        .AddScoped<AccountWork>()
        .AddScoped<CreateAccount>()
        .AddScoped<ChangeAccount>()
        .AddScoped<WaysIn>()
        .AddScoped<MakeToken>()
        .AddScoped<WithdrawToken>()
        .AddScoped<MakeBadge>()
        .AddScoped<WithdrawBadge>()
        .AddScoped<VerifyRegister>()
        .AddScoped<MakeBackup>()
        .AddScoped<RestoreBackup>()
        .AddScoped<RestoredRegister>()
        .AddScoped<Demo>();
}
