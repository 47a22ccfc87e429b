using System.Collections.Frozen;
using Accession.Core.Texts;
using Lookup = System.Collections.Frozen.FrozenSet<string>.AlternateLookup<System.ReadOnlySpan<char>>;

namespace Accession.Core.People;

/// <summary>Words in a collector's column that are no names, in the languages that labels are written in.</summary>
internal static class CollectorPhrases
{
    /// <summary>Whole texts that mean "nobody is named", as <see cref="Folding.Key"/> writes them.</summary>
    private static readonly Lookup Nobody = Keys("""
        anon anonym anonymous anonymus anonymi anonimo anonima anonyme unknown unk unkn unknowncollector
        collectorunknown unknowncollectors collectorsunknown collectorunspecified collectornotspecified notspecified
        unspecified notrecorded collectornotrecorded nocollector nocollectorgiven nocollectorlisted notgiven
        collectornotgiven notstated collectornotstated notindicated notavailable unavailable notknown
        collectornotknown undetermined datanotcaptured notcaptured nodata nodataavailable tobecaptured missing
        collectormissing blank none null na nan nil scoll scol sinecoll sinecollectore sinecollector sc sinecol
        collignot collectorignotus ignotus ignot ignota illegible illeg illegibile collectorillegible ilegible
        ilegivel illisible unleserlich unreadable unintelligible sincolector colectordesconocido desconocido
        desconocida colectoranonimo nodisponible noindicado sinnombre sindatos nocapturado noespecificado
        sincoleccionista colectornoespecificado coletordesconhecido desconhecido desconhecida semcoletor
        coletornaoinformado naoinformado naoidentificado coletoranonimo ignorado coletorignorado indeterminado indet
        semdados inconnu collecteurinconnu recolteurinconnu nonindique sanscollecteur unbekannt sammlerunbekannt
        unbekanntersammler ohnesammler ohneangabe keineangabe onbekend okand ukjent ukendt tuntematon sconosciuto
        ignoto collectorignoto noncollectum neznamy neizvestno various variouscollectors several severalcollectors
        multiple multiplecollectors varios variosautores diversos variouspersons unidentified unidentifiedcollector
        collectornotindicated withheld redacted notprovided sn noname nameunknown namenotgiven nodeterminado collector
        coll collectors leg tbd see label seelabel 未知 不详 佚名 採集者不明 采集人不详
        """);

    /// <summary>Words that make a text a group, an office or an institution.</summary>
    private static readonly Lookup GroupWords = Keys("""
        herbarium museum university garden gardens institute institution team staff crew class expedition survey
        service society club department dept division station curator curators director students student members
        volunteers project program programme party group association agency bureau laboratory academy arboretum
        nursery nurseries college school commission committee council foundation trust center centre conservancy
        office ministry district refuge reserve company corporation corps battalion regiment naturalists botanists
        biologists faculty workshop seminar course fieldtrip excursion bioblitz camp unit pupils foresters rangers
        equipo grupo alumnos estudiantes universidad jardín instituto museo herbario comisión proyecto departamento
        expedición facultad escuela colegio sociedad servicio brigada vivero estación personal curso parataxónomos
        equipe projeto jardim herbário museu comissão universidade expedição alunos estudantes turma departamento
        faculdade escola sociedade serviço brigada horto empresa estação fundação fundación centro coleção université
        jardin musée institut société laboratoire élèves étudiants expédition herbier école universität garten
        botanischer institut gesellschaft verein exkursion studenten forstamt expeditio hortus univ inst exped dept
        depto acad jard arbor lab fac esc serv embrapa ibge radambrasil inpa cepec usda usfs blm nps usgs fao csiro
        conabio ibama sudam sudene iucn
        """);

    /// <summary>Words after "et" or "&amp;" that stand for others without a name.</summary>
    private static readonly Lookup Others = Keys("""
        al alii alia alios col cols coll colls collab colab colaboradores collaborators colegas otros otras outros
        outras others andere anderen autres altri andra mfl companions company compañeros more
        """);

    /// <summary>Words after which the collector is over: other roles, former herbaria, printed series.</summary>
    private static readonly Lookup Endings = Exact("""
        det. Det. det DET. determ. Determ. comm. Comm. misit ded. dedit ex herb. Herb. hb. Hb. HERB. herb Herb Pl. pl.
        Plantae plantae Plants plants Flora flora Exs. Exs exs. Exsicc. exsicc. exsiccata Exsiccata Iter iter Reliq.
        Reliquiae reliq. photo Photo photos for para via ORCID orcid p.p. rev. Determined determined identified
        Identified Ident. ident. Verified verified confirmed conf. Fl. fl. Herbier Coll. coll. Col. Cult. cult. fide
        Fide vide
        """);

    /// <summary>Labels of the field that came along with the name.</summary>
    private static readonly string[] Labels =
    [
        "collector(s)", "collectors", "collector", "collected by", "coletores", "coletor(es)", "coletor",
        "coletado por",
        "colectores", "colector(es)", "colector", "colectado por", "recolectores", "recolector", "récolteur",
        "récolté par",
        "collecteurs", "collecteur", "gesammelt von", "sammler", "raccolto da", "raccoglitore", "insamlad av",
        "recorded by", "legerunt", "legit", "legg", "leg", "collegit", "coll", "col", "lgt",
    ];

    private static readonly Lookup Joining = Exact("""
        & and And AND et Et ET und Und with With WITH w/ cum avec con mit och og y Y e E acc. accompanied by u. und/or
        plus assisted together including c/ ja en
        """);

    private static readonly Lookup NumberSigns = Keys("no nr num numero number nos nro nº");

    /// <summary>Whether the text says that nobody is named.</summary>
    public static bool MeansNobody(ReadOnlySpan<char> text)
    {
        var isCandidate = text.Length is > 0 and < 40;
        if (!isCandidate)
        {
            return false;
        }

        if (text.Length > 4)
        {
            return Folding.IsIn(Nobody, text);
        }

        // "S.C." may be the initials of a person; "s.c." is sine collectore, and N/A is no name.
        return Folding.Key(text) switch
        {
            "sc" => char.IsLower(text[0]),
            "na" => !text.Contains('.'),
            _ => Folding.IsIn(Nobody, text),
        };
    }

    /// <summary>Whether the word makes a text a group or an institution.</summary>
    public static bool IsGroupWord(ReadOnlySpan<char> word) =>
        word.Length > 2 && Folding.IsIn(GroupWords, word);

    /// <summary>Whether the word stands for unnamed others after a joining word.</summary>
    public static bool MeansOthers(ReadOnlySpan<char> word) =>
        word.Length > 1 && Folding.IsIn(Others, word);

    /// <summary>Whether the word alone means "and others": "etal.", "u.a.".</summary>
    public static bool MeansAndOthers(ReadOnlySpan<char> word) =>
        word.Length is > 2 and < 9
        && word[0] is 'e' or 'E' or 'u' or 'm'
        && Folding.Key(word) is "etal" or "etalii" or "ua" or "uam" or "mfl";

    /// <summary>Whether what follows from this word on is not about the collector.</summary>
    public static bool EndsCollector(ReadOnlySpan<char> word) => Endings.Contains(word);

    /// <summary>Whether the word joins two persons.</summary>
    public static bool Joins(ReadOnlySpan<char> word) => Joining.Contains(word);

    /// <summary>Whether the word announces a number.</summary>
    public static bool IsNumberSign(ReadOnlySpan<char> word) =>
        word.Length is > 0 and < 8 && (word is "№" || Folding.IsIn(NumberSigns, word));

    /// <summary>Cuts the label of the field off the beginning.</summary>
    public static ReadOnlySpan<char> WithoutLabel(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty || (text[0] | ' ') is not ('c' or 'l' or 'r' or 's' or 'g' or 'i'))
        {
            return text;
        }

        foreach (var label in Labels)
        {
            if (!text.StartsWith(label, StringComparison.OrdinalIgnoreCase) || text.Length <= label.Length)
            {
                continue;
            }

            var next = text[label.Length];
            var rest = text[label.Length..].TrimStart(" .:;,=-\t");
            if (next is ' ' or '.' or ':' or '=' or '\t' && rest.Length > 0)
            {
                return rest;
            }
        }

        return text;
    }

    private static Lookup Keys(string list) =>
        Of(Words(list).Select(w => Folding.Key(w)).Where(k => k.Length > 0));

    private static Lookup Exact(string list) => Of(Words(list));

    private static string[] Words(string list) => list.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    private static Lookup Of(IEnumerable<string> words) =>
        words.ToFrozenSet(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
}
