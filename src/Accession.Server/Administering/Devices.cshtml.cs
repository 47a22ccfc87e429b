using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;

namespace Accession.Server.Administering;

/// <summary>The devices that act for nobody: scanner stations, loggers.</summary>
[Authorize(Access.Administrators)]
public sealed class DevicesModel(
    AccessionDb db, MakeToken make, WithdrawToken withdraw, InstitutionClock calendar, TimeProvider clock)
    : TokenPage(db, make, withdraw, calendar, clock)
{
    public override bool ForDevices => true;
}
