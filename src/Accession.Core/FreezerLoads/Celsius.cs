using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.FreezerLoads;

/// <summary>Temperatures in °C as people write and read them.</summary>
public static class Celsius
{
    private const char Minus = '\u2212';

    /// <summary>A temperature with a true minus sign: −20 °C.</summary>
    /// <param name="celsius">In °C.</param>
    public static string Words(decimal celsius) =>
        celsius.ToString("0.#", CultureInfo.InvariantCulture).Replace('-', Minus) + " °C";

    /// <summary>Reads a temperature: -20, −20.5, -20,5 °C. Fahrenheit is refused: −4 °F is −20 °C.</summary>
    /// <param name="written">What was written.</param>
    public static Reading<decimal> Read(string written)
    {
        var text = written.Trim();
        var number = text.TrimEnd('C', 'c', '°', ' ').Replace(Minus, '-').Replace('\u2013', '-').Replace(',', '.');
        return decimal.TryParse(
            number, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture,
            out var celsius)
            ? Reading<decimal>.Of(written, celsius)
            : Reading<decimal>.Stopped(written, 1, "Write the temperature in °C, such as −20.");
    }
}
