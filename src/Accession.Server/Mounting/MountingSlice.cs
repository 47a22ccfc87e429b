namespace Accession.Server.Mounting;

internal static class MountingSlice
{
    public static IServiceCollection AddMounting(this IServiceCollection services) => services
        .AddScoped<FinishStep>()
        .AddScoped<TakeStepBack>()
        .AddScoped<PartInHand>();
}
