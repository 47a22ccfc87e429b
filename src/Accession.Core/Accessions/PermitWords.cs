namespace Accession.Core.Accessions;

/// <summary>Permits in words.</summary>
public static class PermitWords
{
    /// <summary>A kind of permit as people say it.</summary>
    /// <param name="kind">The kind.</param>
    public static string Of(PermitKind kind) => kind switch
    {
        PermitKind.Collecting => "Collecting permit",
        PermitKind.Landowner => "Landowner's consent",
        PermitKind.NoxiousWeed => "Noxious-weed permit",
        PermitKind.Import => "Import permit",
        _ => "Permit",
    };

    /// <summary>What people call a permit: its kind and number, or its kind and who issued it.</summary>
    /// <param name="terms">What it says.</param>
    public static string NameOf(PermitTerms terms) =>
        $"{Of(terms.Kind ?? PermitKind.Other)} {(terms.Number.Length > 0 ? terms.Number : $"of {terms.Issuer}")}";

    /// <summary>From when until when it holds.</summary>
    /// <param name="from">The first day; null when there is none.</param>
    /// <param name="until">The last day; null when there is none.</param>
    public static string Validity(DateOnly? from, DateOnly? until) => (from, until) switch
    {
        (null, null) => "any date",
        ({ } first, null) => $"from {Days.Words(first)}",
        (null, { } last) => $"until {Days.Words(last)}",
        ({ } first, { } last) => $"{Days.Words(first)} to {Days.Words(last)}",
    };
}
