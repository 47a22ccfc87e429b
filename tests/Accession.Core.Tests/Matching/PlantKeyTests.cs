using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>Names of plants as far as comparing needs them. Common practice, no published source.</summary>
public sealed class PlantKeyTests
{
    [Theory]
    [InlineData("Malus coronaria (L.) Mill.", "malus", "coronaria", "")]
    [InlineData("Malus coronaria var. lancifolia (Rehder) Fernald", "malus", "coronaria", "lancifolia")]
    [InlineData("Vaccinium shastense subsp. shastense", "vaccinium", "shastense", "")]   // the type form says no more
    [InlineData("Crataegus mexicana Moc. & Sessé ex DC. f. alba Hort.", "crataegus", "mexicana", "alba")]
    [InlineData("Weinmannia racemosa L. f. ex Drake", "weinmannia", "racemosa", "")]   // f. for filius
    [InlineData("Aesculus cf. hybrida", "aesculus", "hybrida", "")]
    [InlineData("Quercus × bebbiana C.K.Schneid.", "quercus", "bebbiana", "")]
    [InlineData("Quercus ×bebbiana", "quercus", "bebbiana", "")]
    [InlineData("×Heucherella tiarelloides", "heucherella", "tiarelloides", "")]
    [InlineData("Poa sp.", "poa", "", "")]
    [InlineData("Poa", "poa", "", "")]
    [InlineData("indet.", "", "", "")]
    [InlineData("", "", "", "")]
    public void Is_read(string name, string genus, string species, string infraspecific) =>
        Assert.Equal(new PlantKey(genus, species, infraspecific), PlantKey.Of(name));

    [Theory]
    [InlineData("Malus fusca", "Pyrus fusca", Slip.OtherGenusSameEpithet)]
    [InlineData("Carex alba", "Carex albus", Slip.None)]   // the ending follows the gender: the Code, Art. 23.5
    [InlineData("CAREX ALBA", "Carex alba L.", Slip.None)]
    [InlineData("Carex alba", "Carex", Slip.GenusOnly)]
    [InlineData("Carex alba", "Carex nigra", Slip.OtherSpecies)]
    [InlineData("Carex alba var. minor", "Carex alba", Slip.LessFinelyNamed)]
    [InlineData("Carex alba var. minor", "Carex alba var. major", Slip.OtherInfraspecific)]
    [InlineData("Carex alba", "Poa nigra", Slip.OtherGenus)]
    public void Are_compared(string one, string other, Slip slip) =>
        Assert.Equal(
            slip, new Row("", "", "", Plant: one).Against(new Row("", "", "", Plant: other)).Evidence.What.Slip);
}
