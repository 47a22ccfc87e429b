using Accession.Server.Shared;

namespace Accession.Server.Tests.Shared;

/// <summary>
/// Genus and epithets italic, all else upright (the Code, Preface to the Shenzhen edition, sets all names in italics;
/// authors and ranks upright is common practice on labels). Stars stand for italics. The names are facts.
/// </summary>
public sealed class PlantNameSettingTests
{
    [Theory]
    [InlineData("Poa secunda J.Presl", "*Poa secunda* J.Presl")]
    [InlineData("Poa secunda", "*Poa secunda*")]
    [InlineData("Pseudoroegneria spicata (Pursh) Á.Löve", "*Pseudoroegneria spicata* (Pursh) Á.Löve")]
    [InlineData("Artemisia tridentata Nutt. ssp. wyomingensis Beetle & A.Young",
        "*Artemisia tridentata* Nutt. ssp. *wyomingensis* Beetle & A.Young")]
    [InlineData("Artemisia tridentata subsp. tridentata", "*Artemisia tridentata* subsp. *tridentata*")]
    [InlineData("Lewisia rediviva Pursh var. rediviva f. alba", "*Lewisia rediviva* Pursh var. *rediviva* f. *alba*")]
    [InlineData("Astragalus filipes Torr. ex A.Gray", "*Astragalus filipes* Torr. ex A.Gray")]
    [InlineData("Carex cf. praegracilis", "*Carex* cf. *praegracilis*")]
    [InlineData("cf. Carex praegracilis", "cf. *Carex praegracilis*")]
    [InlineData("Eriogonum sp.", "*Eriogonum* sp.")]
    [InlineData("Eriogonum sp. nov.", "*Eriogonum* sp. nov.")]
    [InlineData("Salix × sepulcralis Simonk.", "*Salix* × *sepulcralis* Simonk.")]
    [InlineData("Salix ×sepulcralis Simonk.", "*Salix* ×*sepulcralis* Simonk.")]
    [InlineData("×Elyhordeum macounii (Vasey) Barkworth & D.R.Dewey",
        "×*Elyhordeum macounii* (Vasey) Barkworth & D.R.Dewey")]
    [InlineData("Arctostaphylos uva-ursi (L.) Spreng.", "*Arctostaphylos uva-ursi* (L.) Spreng.")]
    [InlineData("Isoëtes bolanderi Engelm.", "*Isoëtes bolanderi* Engelm.")]
    [InlineData("Plagiobothrys hispidulus (Greene) I.M.Johnst.", "*Plagiobothrys hispidulus* (Greene) I.M.Johnst.")]
    public void Genus_and_epithets_are_italic_and_all_else_is_upright(string name, string set) =>
        Assert.Equal(set, Starred(name));

    [Theory]
    [InlineData("Big sagebrush")]
    [InlineData("Blue grama")]
    [InlineData("Oregon iris")]
    [InlineData("Idaho fescue")]
    [InlineData("Grass sp.")]
    [InlineData("Asteraceae")]
    [InlineData("POA SECUNDA J.PRESL")]
    [InlineData("poa secunda")]
    [InlineData("Poa secunda?")]
    [InlineData("Poa  secunda J.Presl")]              // two blanks: shown to the letter
    [InlineData("Artemisia tridentata wyomingensis")] // three bare words: the rank is missing
    [InlineData("unknown, yellow flowers")]
    [InlineData("Poa")]
    [InlineData("cf.")]
    [InlineData("<i>Poa</i> secunda")]
    public void What_leaves_a_doubt_stays_upright(string name) => Assert.Equal(name, Starred(name));

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("Salix × sepulcralis Simonk.")]
    [InlineData("×Elyhordeum ×macounii x Poa f. f.")]
    public void Nothing_is_added_or_lost(string name) =>
        Assert.Equal(name, string.Concat(PlantNameSetting.Of(name).Select(piece => piece.Text)));

    private static string Starred(string name) => string.Concat(
        PlantNameSetting.Of(name).Select(piece => piece.IsItalic ? $"*{piece.Text}*" : piece.Text));
}
