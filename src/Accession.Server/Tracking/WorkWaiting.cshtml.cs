using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Tracking;

public sealed class WorkWaitingModel : PageModel
{
    public void OnGet()
    {
    }
}
