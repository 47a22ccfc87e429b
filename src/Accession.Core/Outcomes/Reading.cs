using System.Diagnostics.CodeAnalysis;

namespace Accession.Core.Outcomes;

/// <summary>
/// What a person wrote beside what we read from it: a value, or the place where reading stopped.
/// Failure is an answer here, never an exception, and the text survives both.
/// </summary>
/// <typeparam name="T">The value that was looked for.</typeparam>
public readonly record struct Reading<T>
{
    private readonly T? _value;

    private Reading(string verbatim, T? value, Unreadable? unreadable, string? question)
    {
        Verbatim = verbatim;
        _value = value;
        Unreadable = unreadable;
        Question = question;
    }

    /// <summary>The text to the letter, as it was written.</summary>
    public string Verbatim { get; }

    /// <summary>Where reading stopped and why; null when there is a value.</summary>
    public Unreadable? Unreadable { get; }

    /// <summary>
    /// A doubt about a value that could be read, as a sentence for a curator; null when there is none.
    /// </summary>
    public string? Question { get; }

    /// <summary>Whether a value was read.</summary>
    [MemberNotNullWhen(false, nameof(Unreadable))]
    public bool IsRead => Unreadable is null;

    /// <summary>The value that was read.</summary>
    /// <exception cref="InvalidOperationException">Nothing was read; ask <see cref="IsRead"/> first.</exception>
    public T Value => IsRead
        ? _value!
        : throw new InvalidOperationException($"\"{Verbatim}\" was not read: {Unreadable.Reason}");

    /// <summary>A text that was read.</summary>
    /// <param name="verbatim">The text to the letter.</param>
    /// <param name="value">What it means.</param>
    /// <param name="question">A doubt that a person should settle; null when there is none.</param>
    public static Reading<T> Of(string verbatim, T value, string? question = null) =>
        new(verbatim, value, null, question);

    /// <summary>A text that was not read.</summary>
    /// <param name="verbatim">The text to the letter.</param>
    /// <param name="column">The character at which reading stopped, from 1.</param>
    /// <param name="reason">Why, as a sentence for a curator.</param>
    public static Reading<T> Stopped(string verbatim, int column, string reason) =>
        new(verbatim, default, new Unreadable(column, reason), null);

    /// <summary>Whether it was read, never what: the text may be a protected place, and this reaches logs.</summary>
    public override string ToString() => IsRead ? "(read)" : $"(not read from character {Unreadable.Column})";
}
