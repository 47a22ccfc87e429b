using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;

namespace Accession.Server.Administering;

/// <summary>The programs that may act for the person who looks.</summary>
[Authorize]
public sealed class TokensModel(
    AccessionDb db, MakeToken make, WithdrawToken withdraw, InstitutionClock calendar, TimeProvider clock)
    : TokenPage(db, make, withdraw, calendar, clock)
{
    public override bool ForDevices => false;
}
