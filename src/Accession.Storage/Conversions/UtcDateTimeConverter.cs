using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Accession.Storage.Conversions;

/// <summary>Times go in as UTC and come out as UTC, on both databases.</summary>
internal sealed class UtcDateTimeConverter() : ValueConverter<DateTime, DateTime>(
    time => Checked(time),
    time => DateTime.SpecifyKind(time, DateTimeKind.Utc))
{
    private static DateTime Checked(DateTime time) => time.Kind == DateTimeKind.Utc
        ? time
        : throw new ArgumentException("Times are stored in UTC.", nameof(time));
}
