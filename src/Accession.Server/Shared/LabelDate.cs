using Accession.Core.Gatherings;

namespace Accession.Server.Shared;

/// <summary>
/// A date as it stands on labels and in lists: "5 Mar 2026". What could not be read stands in quotation marks.
/// </summary>
internal static class LabelDate
{
    public static string Of(string eventDate, string verbatim) => eventDate.Length > 0
        ? CollectingDate.FromIso8601(eventDate).ForPeople()
        : verbatim.Length > 0 ? $"“{verbatim}”" : "";
}
