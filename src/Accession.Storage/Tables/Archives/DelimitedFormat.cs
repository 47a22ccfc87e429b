namespace Accession.Storage.Tables.Archives;

/// <summary>
/// How an archive's descriptor says that a file of rows is written, by the Darwin Core text guide. What it leaves out
/// has the guide's own value, which is that of the parameters here.
/// </summary>
/// <param name="BetweenCells">What stands between two cells; empty when a line is one cell.</param>
/// <param name="BetweenLines">What ends a line.</param>
/// <param name="Mark">What encloses a cell; null when nothing does.</param>
/// <param name="LinesAbove">How many lines above the rows are passed over.</param>
internal sealed record DelimitedFormat(
    string BetweenCells = ",", string BetweenLines = "\n", char? Mark = '"', int LinesAbove = 0);
