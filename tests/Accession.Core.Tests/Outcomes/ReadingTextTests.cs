using Accession.Core.Localities;

namespace Accession.Core.Tests.Outcomes;

public class ReadingTextTests
{
    [Fact]
    public void A_reading_prints_neither_its_text_nor_its_value()
    {
        Assert.Equal("(read)", $"{Coordinates.Read("43.58642, -119.05417")}");
        Assert.Equal("(read)", $"{Elevation.Read("1256 m")}");
    }

    [Fact]
    public void An_unread_text_can_be_printed_without_an_exception() =>
        Assert.Equal("(not read from character 18)", $"{Coordinates.Read("43.58642, 119.05 O")}");
}
