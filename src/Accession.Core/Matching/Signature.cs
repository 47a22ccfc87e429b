using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Core.Matching;

/// <summary>
/// What is compared of one gathering, or of one row of a list: collectors, numbers, date, place and plant, taken from
/// what was read and made small. What is missing is missing, and never a value that could agree. A signature is made
/// from the exact place and is to be guarded as such.
/// </summary>
/// <remarks>
/// A fixed layout without references, in the order of the machine, which is little-endian wherever the program runs.
/// A signature of another version is made anew from the field notes.
/// </remarks>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
public readonly struct Signature
{
    /// <summary>The version that is written now. It changes whenever the layout or a reading beneath it does.</summary>
    public const byte CurrentVersion = 1;

    private readonly byte _version;

    // Fields, because a property would copy them on every look.
    internal readonly TeamMark Team;
    internal readonly NumbersMark Numbers;
    internal readonly DateMark Date;
    internal readonly PlaceMark Place;
    internal readonly PlantMark Plant;

    private Signature(FieldNotes notes, PublicPlace place)
    {
        _version = CurrentVersion;
        Team = TeamMark.Of(notes.CollectorsVerbatim);
        Numbers = NumbersMark.Of(notes);
        Date = DateMark.Of(notes.EventDate);
        Place = PlaceMark.Of(place);
        Plant = PlantMark.Of(notes);
    }

    /// <summary>How many bytes a signature has.</summary>
    public static int Size => Unsafe.SizeOf<Signature>();

    /// <summary>The version it was made with; 0 for a signature that was never made.</summary>
    public byte Version => _version;

    /// <summary>The day it was collected, as a day number; 0 when it is not known to the day.</summary>
    public int Day => Date.IsDay ? Date.From : 0;

    /// <summary>Of a row of a list, as it was read.</summary>
    /// <param name="row">The row.</param>
    public static Signature Of(RowReading row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new(row.Notes, row.Place);
    }

    /// <summary>Of field notes and the place as held.</summary>
    /// <param name="notes">The field notes.</param>
    /// <param name="place">The place, exact even where it is protected.</param>
    public static Signature Of(FieldNotes notes, PublicPlace place)
    {
        ArgumentNullException.ThrowIfNull(notes);
        ArgumentNullException.ThrowIfNull(place);
        return new(notes, place);
    }

    /// <summary>Of a gathering in the register.</summary>
    /// <param name="gathering">The gathering.</param>
    /// <param name="held">The exact place that is kept apart where it is protected; null where it is not.</param>
    /// <exception cref="ArgumentException">The place is protected, and its exact place was not given.</exception>
    public static Signature Of(Gathering gathering, ExactLocality? held)
    {
        ArgumentNullException.ThrowIfNull(gathering);
        return held is null && gathering.Protection != SensitivityCategory.NotSensitive
            ? throw new ArgumentException("The place is protected, and its exact place was not given.", nameof(held))
            : new(
                gathering.Notes,
                held?.AsEveryoneMayKnow(gathering.Place, SensitivityCategory.NotSensitive) ?? gathering.Place);
    }

    /// <summary>Reads back what <see cref="ToBytes"/> gave.</summary>
    /// <param name="bytes">The stored bytes.</param>
    /// <exception cref="FormatException">They are of another length or version.</exception>
    public static Signature FromBytes(ReadOnlySpan<byte> bytes) =>
        bytes.Length != Size || bytes[0] != CurrentVersion
            ? throw new FormatException("A stored signature is not of the version that is written now.")
            : MemoryMarshal.Read<Signature>(bytes);

    /// <summary>The signature as it is stored.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[Size];
        MemoryMarshal.Write(bytes, in this);
        return bytes;
    }
}
