namespace Accession.Core.Outcomes;

/// <summary>What an operation answers: a value, or every reason why it was refused.</summary>
/// <typeparam name="T">The value of success.</typeparam>
public readonly struct Outcome<T>
{
    private readonly T? _value;
    private readonly IReadOnlyList<Refusal>? _refusals;

    private Outcome(T? value, IReadOnlyList<Refusal>? refusals)
    {
        _value = value;
        _refusals = refusals;
    }

    /// <summary>Whether a rule said no.</summary>
    public bool IsRefused => _refusals is { Count: > 0 };

    /// <summary>Every reason; empty when the operation was carried out.</summary>
    public IReadOnlyList<Refusal> Refusals => _refusals ?? [];

    /// <summary>What the operation answered.</summary>
    /// <exception cref="InvalidOperationException">It was refused; ask <see cref="IsRefused"/> first.</exception>
    public T Value => IsRefused
        ? throw new InvalidOperationException(string.Join(" ", Refusals.Select(r => r.Reason)))
        : _value!;

    /// <summary>Success.</summary>
    public static implicit operator Outcome<T>(T value) => new(value, null);

    /// <summary>Refused for one reason.</summary>
    public static implicit operator Outcome<T>(Refusal refusal) => new(default, [refusal]);

    /// <summary>Refused for several reasons.</summary>
    /// <exception cref="ArgumentException">The list is empty: that is not a refusal.</exception>
    public static implicit operator Outcome<T>(List<Refusal> refusals) => refusals is []
        ? throw new ArgumentException("An outcome without a value needs at least one refusal.", nameof(refusals))
        : new(default, refusals);
}
