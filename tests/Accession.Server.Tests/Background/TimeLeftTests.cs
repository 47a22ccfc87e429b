using Accession.Server.Background;

namespace Accession.Server.Tests.Background;

public sealed class TimeLeftTests
{
    [Theory]
    [InlineData(0, 100, 60, null)]            // nothing to reckon from
    [InlineData(100, 100, 60, null)]          // nothing left
    [InlineData(120, 100, 60, null)]          // more than was expected: no telling
    [InlineData(10, 100, 4, null)]            // too short to tell
    [InlineData(50, 100, 30, "less than a minute left")]
    [InlineData(50, 100, 60, "about a minute left")]
    [InlineData(50, 100, 61, "about 2 minutes left")]
    [InlineData(1000, 21_000, 60, "about 20 minutes left")]
    [InlineData(10, 1000, 60, "about 2 hours left")]
    public void What_is_left_follows_from_what_it_took(long done, long total, int seconds, string? words) =>
        Assert.Equal(words, TimeLeft.Of(done, total, TimeSpan.FromSeconds(seconds)));
}
