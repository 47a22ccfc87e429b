namespace Accession.Storage.Tables.Archives;

/// <summary>
/// The checksum that a zip keeps of each file: CRC-32 as in ISO 3309, which the framework does not check.
/// </summary>
internal struct Checksum
{
    private const uint Polynomial = 0xEDB88320;

    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(i =>
    {
        var value = (uint)i;
        for (var bit = 0; bit < 8; bit++)
        {
            value = (value & 1) == 0 ? value >> 1 : (value >> 1) ^ Polynomial;
        }

        return value;
    })];

    private uint _inverse;

    public readonly uint Value => _inverse;

    public void Add(ReadOnlySpan<byte> bytes)
    {
        var value = ~_inverse;
        foreach (var b in bytes)
        {
            value = Table[(byte)(value ^ b)] ^ (value >> 8);
        }

        _inverse = ~value;
    }
}
