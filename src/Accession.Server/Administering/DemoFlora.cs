namespace Accession.Server.Administering;

/// <summary>
/// What grows where in the demo. The names are those of plants of the high desert of eastern Oregon, with their
/// authors;
/// which of them was found, by whom, when and where is invented.
/// </summary>
public static class DemoFlora
{
    /// <summary>A plant as it would stand on a label.</summary>
    public sealed record Plant(string Name, string Family, string Says);

    /// <summary>Ground and vegetation, the metres above the sea between which it is found, and what grows
    /// there.</summary>
    public sealed record Habitat(string[] Texts, int Lowest, int Highest, Plant[] Plants);

    /// <summary>Known from one hill of one county, so its place is the one that the demo protects.</summary>
    public static Plant Protected { get; } =
        new("Stephanomeria malheurensis Gottlieb", "Asteraceae", "Annual, some thirty plants; rays pink.");

    public static Habitat[] Habitats { get; } =
    [
        new(["Sagebrush steppe on silty loam", "Low sagebrush on thin stony clay", "Sagebrush slope, lightly grazed"],
            1250, 1700,
            [
                new("Artemisia tridentata Nutt.", "Asteraceae", "Shrub, 1.2 m; leaves grey, three-toothed."),
                new("Artemisia arbuscula Nutt.", "Asteraceae", "Low shrub, 30 cm."),
                new("Ericameria nauseosa (Pall. ex Pursh) G.L.Nesom & G.I.Baird", "Asteraceae", "Shrub; heads yellow."),
                new("Pseudoroegneria spicata (Pursh) Á.Löve", "Poaceae", "Bunchgrass, frequent."),
                new("Poa secunda J.Presl", "Poaceae", "Small tufts between the shrubs."),
                new("Elymus elymoides (Raf.) Swezey", "Poaceae", "Spikes breaking up."),
                new("Balsamorhiza sagittata (Pursh) Nutt.", "Asteraceae", "Heads yellow; common on the slope."),
                new("Crepis acuminata Nutt.", "Asteraceae", "Sap milky; heads yellow."),
                new("Phlox longifolia Nutt.", "Polemoniaceae", "Flowers pink to white."),
                new("Calochortus macrocarpus Douglas", "Liliaceae", "Petals lilac with a green stripe."),
                new("Castilleja linariifolia Benth.", "Orobanchaceae", "Bracts scarlet."),
                new("Lupinus caudatus Kellogg", "Fabaceae", "Flowers blue; leaves silvery."),
            ]),
        new(["Alkaline flat at the edge of a dry lake", "Saltgrass flat, crusted", "Dunes of silt round a playa"],
            1240, 1400,
            [
                new("Sarcobatus vermiculatus (Hook.) Torr.", "Sarcobataceae", "Spiny shrub, 1.5 m."),
                new("Atriplex confertifolia (Torr. & Frém.) S.Watson", "Amaranthaceae", "Shrub, 50 cm, spiny."),
                new("Grayia spinosa (Hook.) Moq.", "Amaranthaceae", "Bracts of the fruit reddish."),
                new("Distichlis spicata (L.) Greene", "Poaceae", "Mats from rhizomes."),
                new("Leymus cinereus (Scribn. & Merr.) Á.Löve", "Poaceae", "Clumps to 1.8 m."),
                new("Achnatherum hymenoides (Roem. & Schult.) Barkworth", "Poaceae", "Panicle open, on sand."),
                new("Cleome lutea Hook.", "Cleomaceae", "Annual; flowers yellow."),
            ]),
        new(["Basalt rim and talus", "Rocky outcrop, facing south", "Gravelly ash below the rim"], 1300, 1900,
            [
                new("Eriogonum sphaerocephalum Douglas ex Benth.", "Polygonaceae", "Mats; flowers yellow."),
                new("Eriogonum umbellatum Torr.", "Polygonaceae", "Flowers cream, ageing red."),
                new("Lewisia rediviva Pursh", "Montiaceae", "Flowers pink; leaves withered."),
                new("Penstemon speciosus Douglas ex Lindl.", "Plantaginaceae", "Corolla bright blue."),
                new("Mentzelia laevicaulis (Douglas) Torr. & A.Gray", "Loasaceae", "Flowers opening at dusk."),
                new("Erigeron linearis (Hook.) Piper", "Asteraceae", "Rays yellow."),
                new("Allium acuminatum Hook.", "Amaryllidaceae", "Bulb shallow; tepals rose."),
                new("Ribes cereum Douglas", "Grossulariaceae", "Shrub; berries red."),
            ]),
        new(["Wet meadow on peat", "Seep below a spring, grazed", "Margin of a slough"], 1250, 1650,
            [
                new("Camassia quamash (Pursh) Greene", "Asparagaceae", "Flowers blue; thousands."),
                new("Iris missouriensis Nutt.", "Iridaceae", "Flowers pale blue."),
                new("Carex nebrascensis Dewey", "Cyperaceae", "Leaves blue-green."),
                new("Salix exigua Nutt.", "Salicaceae", "Thicket, 2 m, along the channel."),
                new("Ranunculus aquatilis L.", "Ranunculaceae", "Floating; petals white."),
                new("Rosa woodsii Lindl.", "Rosaceae", "Flowers pink; hedge by the ditch."),
            ]),
        new(["Juniper woodland on a stony slope", "Mountain mahogany below the crest", "Open pine above the creek"],
            1400, 1900,
            [
                new("Juniperus occidentalis Hook.", "Cupressaceae", "Tree, 6 m; cones blue."),
                new("Cercocarpus ledifolius Nutt.", "Rosaceae", "Small tree; fruits with plumes."),
                new("Purshia tridentata (Pursh) DC.", "Rosaceae", "Shrub; flowers yellow."),
                new("Pinus ponderosa Douglas ex C.Lawson", "Pinaceae", "Tree, 20 m; needles in threes."),
                new("Festuca idahoensis Elmer", "Poaceae", "Bunchgrass under the trees."),
                new("Populus tremuloides Michx.", "Salicaceae", "Grove by the seep."),
            ]),
    ];
}
