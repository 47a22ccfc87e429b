using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of who collected: the first three persons and what else the text says, 40 bytes.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly struct TeamMark
{
    /// <summary>How many persons are held.</summary>
    public const int Most = 3;

    private readonly PersonMark _first;
    private readonly PersonMark _second;
    private readonly PersonMark _third;

    private TeamMark(PersonMark first, PersonMark second, PersonMark third, TeamFlags flags) =>
        (_first, _second, _third, Flags) = (first, second, third, flags);

    /// <summary>What the text says beside the names.</summary>
    public TeamFlags Flags { get; }

    /// <summary>How many persons or groups are held.</summary>
    public int Count => !_first.IsPresent ? 0 : !_second.IsPresent ? 1 : !_third.IsPresent ? 2 : 3;

    /// <summary>Whether the only collector is a class, crew, office or institution.</summary>
    public bool IsGroup => (Flags & TeamFlags.Group) != 0;

    /// <summary>One of the persons, the numbering one first.</summary>
    /// <param name="place">From 0 to one less than <see cref="Count"/>.</param>
    public PersonMark this[int place] => place switch { 0 => _first, 1 => _second, _ => _third };

    /// <summary>Reads the collectors to the letter.</summary>
    public static TeamMark Of(string verbatim)
    {
        var reading = Collectors.Read(verbatim);
        if (!reading.IsRead)
        {
            return default;
        }

        var team = reading.Value;
        var flags = (team.EtAl ? TeamFlags.EtAl : 0) | (team.IsAnonymous ? TeamFlags.Anonymous : 0);
        Persons marks = default;
        var count = 0;
        foreach (var person in team.Persons)
        {
            var mark = PersonMark.Of(person);
            if (!mark.IsPresent)
            {
                continue;
            }

            if (count == Most)
            {
                flags |= TeamFlags.More;
                break;
            }

            marks[count++] = mark;
        }

        if (count == 0 && team.Group.Length > 0)
        {
            marks[0] = PersonMark.OfGroup(team.Group);
            flags |= marks[0].IsPresent ? TeamFlags.Group : 0;
        }

        return new(marks[0], marks[1], marks[2], flags);
    }

    [InlineArray(Most)]
    private struct Persons
    {
        private PersonMark _person;
    }
}

/// <summary>What a text of collectors says beside the names.</summary>
[Flags]
internal enum TeamFlags : byte
{
    /// <summary>Others are mentioned and not named.</summary>
    EtAl = 1,

    /// <summary>It states that nobody is known.</summary>
    Anonymous = 2,

    /// <summary>The collector is a group.</summary>
    Group = 4,

    /// <summary>There are more persons than are held.</summary>
    More = 8,
}
