using System.Buffers;
using System.Collections.Frozen;
using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>
/// The words that help to tell a given name from a family name and a person from a title. Common knowledge, from
/// memory; the lists are short on purpose and only settle what the form of the text leaves open.
/// </summary>
internal static class NameLexicon
{
    /// <summary>Words that stand between given and family name.</summary>
    private static readonly FrozenSet<string> Particles = Words("""
        van der den de la del della dello di da das do dos du des von vom zu zur zum ter ten te af av el al bin ibn
        ben le las los lo degli dei auf aan op het 't d' v. v.d. vd v.der v.d dal dalla y e i in ver vander vande
        vanden
        """);

    /// <summary>Particles that the comparing key drops from the beginning of a family name.</summary>
    private static readonly FrozenSet<string> Dropped = Words("""
        van der den de la del della dello di da das do dos du des von vom zu zur zum ter ten te af av el al bin ibn le
        las los lo degli dei auf aan op het v. v.d. vd vander vande vanden
        """);

    /// <summary>First halves of family names: Saint, San and their like never stand alone.</summary>
    private static readonly FrozenSet<string> FamilyBeginnings = Words("""
        st st. ste ste. saint sainte san santa santo sant são sao mac mc fitz van von de del della di da du des le la
        las los el ter ten vande vander villa vila castelo castello mont monte
        """);

    private static readonly FrozenSet<string> Suffixes = Words("""
        jr jr. jnr jnr. junior júnior sr sr. snr snr. senior ii iii iv filho fº neto netto sobrinho hijo fils 2nd 3rd
        """);

    private static readonly FrozenSet<string> Titles = Words("""
        dr dr. dra dra. prof prof. mr mr. mrs mrs. ms ms. miss rev rev. revd revd. sgt sgt. capt capt. col. lt lt.
        maj. gen. cpl cpl. sir lady lord hon hon. ing. lic. biol. doña dona dom padre father fr. pe. pater herr frau
        mme mme. mlle mlle. monsieur madame mag. dipl. profa profa. srta srta. m.sc. ph.d. phd sra sra. señor señora
        eng. engº
        """);

    private static readonly FrozenSet<string> ReligiousTitles = Words("""
        sister bro bro. brother hno hno. hermano hna hna. hermana frère frere soeur sœur irmão irmã ir. frei fray
        frater fratre schwester bruder père pere abbé mother sor fr. padre pater father
        """);

    private static readonly FrozenSet<string> Given = Words("""
        aaron abel abigail abraham adam adolf adolfo adrian adriana agnes al agustin agustín alan albert alberto
        alejandra alejandro alex alexander alexandra alfonso alfred alfredo alice alicia allan allen allison alvaro
        amanda amelia amy ana andre andré andrea andreas andres andrés andrew ângela angela angel ángel anita ann anna
        anne anthony antoine anton antonio antônio armando arnold arthur artur arturo ashley august augusto barbara
        bárbara barry beatriz ben benjamin bernard bernardo beth betty bill bob brad bradley brenda brian bruce bryan
        caleb carl carla carlos carmen carol carole caroline carolina carolyn catherine cecilia cesar césar charles
        charlotte chris christian christina christine christopher cindy claire clara claudia claudio clifford colin
        connie craig cristina cynthia dan daniel daniela daniele dave david dean deborah del denise dennis diana diane
        dick diego dieter dirk domingo don donald donna doris dorothy doug douglas duane dylan earl eddie edgar edith
        eduardo edmund edna edward edwin eleanor elena elias elisa elizabeth ella ellen elmer elsa emil emilia emilio
        emily emma enrique eric erich erik erika ernest ernesto ernst erwin esteban esther ethel eugene eugenia
        eugenio eva evelyn fabio fabiana felipe fernanda fernando flora florence frances francis francisca francisco
        françois frank franz fred frederick frieda friedrich gabriel gabriela gail gary geoffrey george georges georg
        gerald gerard gerardo gerhard gert gilbert gilberto giovanni gladys glenn gloria gonzalo gordon grace graham
        greg gregory guadalupe guilherme guillermo gustav gustavo guy gwen hans harold harriet harry harvey heather
        hector héctor heinrich heinz helen helena helga henri henry herbert herman hermann hilda horace howard hubert
        hugh hugo humberto ian ida ignacio inés ines ingrid irene iris irma isaac isabel isabella ivan jack jacob
        jacques jaime james jan jane janet janice jason javier jay jean jeff jeffrey jennifer jeremy jerry jesse
        jessica jesús jesus jill jim joan joana joann joão joe joel johan johann johannes john jon jonathan jorge jose
        josé josef josefina joseph joshua josh joyce juan juana juanita judith judy julia julian juliana julie julio
        julius june justin karen karin karl kate katherine kathleen kathryn kathy katie keith ken kenneth kevin klaus
        kristin kristen kurt kyle larry laura laurie lawrence leah lee len leo leon leonard leonardo leroy leslie
        lesley lewis liliana lilian linda lisa lloyd lois lorenzo lori louis louise lourdes lowell lucas lucia lucía
        lúcia luciana lucy ludwig luis luís luisa luiz luiza lynn mabel madeleine manuel manuela marc marcel marcela
        marcelo márcia marcia marco marcos marcus margaret margarita maria maría marianne marie marilyn mario mário
        marion mark marta martha martin martín mary mateus matthew matt maureen maurice mauricio mauro max megan
        melissa mercedes michael michel michelle miguel mike milton miriam mónica monica moritz nancy natalia nathan
        neil nelson nicholas nick nicolas nicolás nina nora norma norman octavio olga oliver oscar óscar oswaldo otto
        pablo pamela pat patricia patrícia patrick paul paula paulina paulo pedro peggy penny pete peter petra phil
        philip phillip pierre piet pieter rachel rafael rainer ralph ramón ramon randy raquel raul raúl ray raymond
        rebecca regina renata renate rené rené renée ricardo richard rick rita rob robert roberta roberto rod rodney
        rodolfo rodrigo roger roland rolf ron ronald rosa rosalba rose rosemary roy rubén ruben rudolf russell ruth
        ryan sally salvador sam samuel sandra sandro sandy santiago sara sarah scott sean sebastián sergio sérgio seth
        sharon sheila shirley sidney silvia simon sofia sofía sonia sophie stanley stefan stella stephanie stephen
        steve steven stuart sue susan susana susanne suzanne sylvia tatiana ted teresa thérèse terry thelma theo
        theodor theodore thomas tim timothy tina todd tom tomas tomás tony tracy trevor ursula valerie vanessa vera
        vernon veronica verónica vicente victor víctor victoria vincent vinicius viola virginia vivian vladimir wade
        walter wanda warren wayne wendy werner wilhelm will willem william willy wilma wolfgang xavier yolanda yvonne
        zoe zoë
        """);

    /// <summary>Given names of Spanish custom: after them two family names are the rule.</summary>
    private static readonly FrozenSet<string> SpanishGiven = Words("""
        agustín alberto alejandra alejandro alfonso alfredo alicia álvaro ana andrés ángel antonio armando arturo
        beatriz carlos carmen carolina cecilia césar claudia cristina daniela diego domingo eduardo elena emilio
        enrique ernesto esteban eugenio felipe fernando francisca francisco gerardo gonzalo gloria guadalupe guillermo
        gustavo héctor hugo humberto ignacio inés isabel jaime javier jesús jorge josé josefina juan juana julia julio
        leonardo lourdes lucía luis luisa manuel manuela marcela marco marcos margarita maría mario marta martha
        martín mauricio mercedes miguel mónica natalia nicolás octavio olga óscar oswaldo pablo patricia pedro rafael
        ramón raquel raúl ricardo roberto rocío rodolfo rodrigo rosa rosalba rubén salvador santiago sebastián sergio
        silvia sofía susana teresa tomás verónica vicente víctor yolanda ximena xochitl
        """);

    private static readonly FrozenSet<string> SpanishFamily = Words("""
        acevedo acosta acuña aguilar aguirre alarcón alcántara alfaro alonso alvarado anaya aragón aranda arango araya
        arce arellano arias arroyo avendaño ávila ayala badilla barrera barrios bautista becerra beltrán benavides
        bello bermúdez blanco bolaños botero bravo bustamante bustos caballero cabrera calderón calvo camacho campos
        cano cárdenas cardona carmona carranza carrasco carrillo carvajal castañeda castañón castellanos castillo
        castro ceballos cedillo cervantes cisneros cordero córdoba coronado correa cortés cruz cuevas delgado duarte
        durán echeverri echeverría escobar espejel espinosa espinoza esquivel estrada fierro figueroa flores franco
        fuentes galindo gallardo gallego gallegos galván gamboa garay garcía garza garzón gil giraldo godoy grajales
        granados guerra guerrero guevara guzmán haro henao heredia hernando herrera hidalgo hoyos huerta hurtado
        ibarra islas jaramillo jasso juárez lara leal león linares llanos lobo londoño lora lozano lugo luna macías
        madrigal maldonado manrique marín márquez mata mayorga medina mejía mena mendoza merino mesa meza miranda
        molina mondragón monroy montalvo montaño montero montes montoya mora morales moreno mota moya munguía muñiz
        murillo nájera narváez navarrete navarro nava nieto nieves nolasco novoa ocampo ochoa olivares olvera orozco
        ortega ortiz osorio otero oviedo pacheco padilla palacios palma pardo paredes parra pedraza peña peralta
        perdomo pineda pinto pinzón plata polanco ponce portillo posada prado puig quesada quijano quintana quintero
        quiroga quiroz ramos rangel rendón restrepo rey reyes reyna rincón ríos rivas rivera robledo robles rocha
        rojas roldán romero rosales rosas rubio rueda ruiz saavedra salas salazar salcedo saldaña salgado salinas
        samaniego sandoval santamaría santana santiago santos saucedo segura serna serrano sierra silva solano solís
        soria sosa soto tapia tejada téllez tenorio terrazas toledo toro torres tovar trejo treviño trujillo urbina
        uribe valadez valdés valdivia valencia valle vallejo varela vargas vega velasco velázquez vera vergara vidal
        villa villalobos villanueva villarreal villaseñor villegas vivas yáñez zamora zapata zárate zavala zepeda
        zúñiga
        """);

    /// <summary>Family names of Portuguese custom: the last of several is the one that counts.</summary>
    private static readonly FrozenSet<string> PortugueseFamily = Words("""
        abreu aguiar albuquerque almeida alves amaral amorim andrade antunes araújo assis assunção azevedo barbosa
        barros bastos batista bezerra borges braga brandão brito cabral câmara cardoso carneiro carvalho cavalcante
        cavalcanti coelho conceição cordeiro costa coutinho couto cunha damasceno dias diniz farias faria fernandes
        ferraz ferreira figueiredo fonseca fontes fraga freire freitas furtado gomes gonçalves goulart guedes
        guimarães jardim jesus junqueira lacerda leão leitão leite lemos lima lopes loureiro lourenço macedo machado
        magalhães maia marques martins matos mattos medeiros melo mello mendes mendonça menezes monteiro moraes morais
        moreira mota moura nascimento neves nogueira nunes oliveira paiva paixão passos peixoto pereira pessoa
        pimentel pinheiro pires pontes prata queiroz rabelo ramalho rêgo rezende resende ribeiro rocha rodrigues sá
        sales sampaio santana santos saraiva seixas serra siqueira silva silveira simões soares souza sousa tavares
        teixeira teles telles valente vasconcelos vasconcellos veloso viana vianna vieira xavier
        """);

    /// <summary>Family names that stand first in Chinese, Korean and Vietnamese order, romanised.</summary>
    private static readonly FrozenSet<string> EasternFamily = Words("""
        bai bao cai cao chang chao chen cheng chiang chin ching choi cho choe chou chow chu chung cui deng ding dong
        du duan fan fang fei feng fu gao ge gong gu guan guo han hao he hong hou hsieh hsu hu hua huang hwang jang
        jeon jia jiang jin jung kang kao kim ko kong ku kuo kwon lai lee lei leung li liang liao lim lin ling liu long
        lu luo ma mao meng mo nam ni nguyễn nguyen oh ou pai pan park pei peng phạm pham qi qian qiao qin qiu ren ryu
        seo shang shao shen shi shin song su sun tan tang tao tian trần tran tsai tseng wan wang wei wen weng wu xia
        xiang xiao xie xu xue yan yang yao ye yi yim yin yoo yoon you yu yuan yue yun zeng zhai zhan zhang zhao zheng
        zhong zhou zhu zhuang zou lê đặng bùi hoàng huỳnh võ vũ
        """);

    /// <summary>The most common of them, which are hardly ever the given name of two short words.</summary>
    private static readonly FrozenSet<string> CommonEasternFamily = Words("""
        wang li zhang liu chen yang zhao huang zhou wu xu sun zhu ma hu guo lin gao luo zheng liang song tang kim lee
        park choi nguyễn trần
        """);

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> DroppedSpans =
        Dropped.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Accents of Spanish; é is left out, because French has it too.</summary>
    private static readonly SearchValues<char> SpanishLetters = SearchValues.Create("áíóúñÁÍÓÚÑ");

    /// <summary>Whether the word, in any case, may stand between given and family name.</summary>
    public static bool IsParticle(string word) => Particles.Contains(word);

    /// <summary>Whether the comparing key leaves the word off at the beginning of a family name.</summary>
    public static bool IsDroppedParticle(ReadOnlySpan<char> word) => DroppedSpans.Contains(word);

    /// <summary>Whether the word never is a family name without the next one.</summary>
    public static bool BeginsFamily(string word) => FamilyBeginnings.Contains(word);

    /// <summary>Whether the word tells generations apart.</summary>
    public static bool IsSuffix(string word) => Suffixes.Contains(word);

    /// <summary>Whether the word is a title and no part of the name.</summary>
    /// <remarks>"Irmã" is a sister in religion; without its accent it is the given name Irma.</remarks>
    public static bool IsTitle(string word) => (Titles.Contains(word) || ReligiousTitles.Contains(word))
        && !(Ascii.IsValid(word) && Given.Contains(word));

    /// <summary>Whether the title is of those whose bearers have a name of religion and no family name.</summary>
    public static bool IsReligiousTitle(string word) => ReligiousTitles.Contains(word);

    /// <summary>Whether the word is a common given name.</summary>
    public static bool IsGiven(string word) => Given.Contains(word) || SpanishGiven.Contains(word);

    /// <summary>Whether the word is a given name after which two family names are usual.</summary>
    public static bool IsSpanishGiven(string word) => SpanishGiven.Contains(word);

    /// <summary>Whether the word looks like a family name of Spanish custom.</summary>
    public static bool IsSpanishFamily(string word) =>
        SpanishFamily.Contains(word)
        || word.AsSpan().ContainsAny(SpanishLetters)
        || (word.Length > 4 && Folding.Plain(word[^1]) == 'z' && Folding.Plain(word[^2]) is 'e' or 'a');

    /// <summary>Whether the word is a family name of Portuguese custom and not as common in Spanish.</summary>
    public static bool IsPortugueseFamily(string word) => PortugueseFamily.Contains(word);

    /// <summary>Whether the word is a family name that is written before the given name in the east of Asia.</summary>
    public static bool IsEasternFamily(string word) => EasternFamily.Contains(word);

    /// <summary>Whether it is one of the most common of those names.</summary>
    public static bool IsCommonEasternFamily(string word) => CommonEasternFamily.Contains(word);

    /// <summary>The words of a list; they are found in any case, with and without their accents.</summary>
    private static FrozenSet<string> Words(string list)
    {
        var words = list.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        return words.Concat(words.Select(WithoutAccents)).ToFrozenSet(StringComparer.OrdinalIgnoreCase);
    }

    private static string WithoutAccents(string word) => string.Concat(word.Select(c => char.IsLetter(c)
        ? Folding.Plain(c).ToString()
        : c.ToString()));
}
