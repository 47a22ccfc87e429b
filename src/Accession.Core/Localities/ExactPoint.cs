namespace Accession.Core.Localities;

/// <summary>
/// A point as exactly as it was read. It prints nothing and has no converter: it shows neither its numbers nor anything
/// from which they follow, so that no page, export, mail or log can write it by mistake. What may be written is what
/// <see cref="Blurring.Of"/> returns.
/// </summary>
/// <remarks>
/// The numbers are internal to the rules and to the storage of exact localities; nobody else can name them in code. The
/// boundary tests hold this. Why it is so stands in the decision on exact points.
/// </remarks>
public sealed class ExactPoint : IEquatable<ExactPoint>
{
    /// <exception cref="ArgumentOutOfRangeException">There is no such place, or an uncertainty of 0 or
    /// less.</exception>
    internal ExactPoint(
        decimal latitude, decimal longitude, CoordinatePrecision precision, double? uncertaintyInMeters = null)
    {
        if (latitude is < -90 or > 90 || longitude is < -180 or > 180)
        {
            // The numbers stay out of the message: messages reach logs.
            throw new ArgumentOutOfRangeException(nameof(latitude), "There is no such place on Earth.");
        }

        if (uncertaintyInMeters is <= 0 or double.NaN)
        {
            throw new ArgumentOutOfRangeException(nameof(uncertaintyInMeters), "An uncertainty is never 0.");
        }

        Latitude = latitude;
        Longitude = longitude;
        Precision = precision;
        UncertaintyInMeters = uncertaintyInMeters;
    }

    /// <summary>The unit to which the point was written.</summary>
    public CoordinatePrecision Precision { get; }

    /// <summary>
    /// The radius in metres in which the true place lies, of all sources together; null when not known.
    /// </summary>
    public double? UncertaintyInMeters { get; }

    /// <summary>Degrees, north positive, −90 to 90.</summary>
    internal decimal Latitude { get; }

    /// <summary>Degrees, east positive, −180 to 180.</summary>
    internal decimal Longitude { get; }

    /// <summary>The same point with another uncertainty.</summary>
    /// <param name="meters">The radius in metres, more than 0; null when it is not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">An uncertainty of 0 or less.</exception>
    public ExactPoint WithUncertainty(double? meters) => new(Latitude, Longitude, Precision, meters);

    /// <summary>Whether both are the same place, written to the same unit, with the same uncertainty.</summary>
    /// <param name="other">The other point.</param>
    public bool Equals(ExactPoint? other) => other is not null && Latitude == other.Latitude
        && Longitude == other.Longitude && Precision == other.Precision
        && UncertaintyInMeters.Equals(other.UncertaintyInMeters);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as ExactPoint);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Latitude, Longitude, Precision, UncertaintyInMeters);

    /// <summary>Always the same words, never the place.</summary>
    public override string ToString() => "(exact point)";

    /// <summary>The radius that follows from the written unit alone, in metres.</summary>
    /// <remarks>Internal, because with many digits it gives away the latitude.</remarks>
    internal double UncertaintyFromPrecision() => Precision.UncertaintyInMeters((double)Latitude);

    /// <summary>
    /// The point as held, for plants that need no protection: what <see cref="Blurring.Of"/> gives for them.
    /// </summary>
    internal PublicPoint AsHeld() => new(Latitude, Longitude, UncertaintyInMeters, null);
}
