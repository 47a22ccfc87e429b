using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>Comparing given names as labels write them: initials with and without stops, full names, or both.</summary>
internal static class GivenNames
{
    /// <summary>The initials in lower case: "mk" for "Mark K.", "M. K.", "M.K." and "MK".</summary>
    public static string InitialsOf(string given)
    {
        if (given.Length == 0)
        {
            return "";
        }

        var initials = new StringBuilder();
        foreach (var name in Split(given))
        {
            initials.Append(name[0]);
        }

        return initials.ToString();
    }

    /// <summary>Whether all names are the same, spelled out or not, in the same order.</summary>
    public static bool AreEqual(string one, string other) =>
        one == other || Split(one).AsSpan().SequenceEqual(Split(other));

    /// <summary>Whether the names agree as far as both go: an initial agrees with a name that begins with it.</summary>
    public static bool AreCompatible(string one, string other)
    {
        var left = Split(one);
        var right = Split(other);
        for (var i = 0; i < Math.Min(left.Length, right.Length); i++)
        {
            var areInitials = left[i].Length == 1 || right[i].Length == 1;
            if (areInitials ? left[i][0] != right[i][0] : left[i] != right[i])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Each name or initial, folded. A short word in capitals is a row of initials.</summary>
    private static string[] Split(string given)
    {
        var names = new List<string>(4);
        var start = 0;
        for (var i = 0; i <= given.Length; i++)
        {
            if (i < given.Length && given[i] is not (' ' or '.' or '-' or '\u2010' or '\u2011'))
            {
                continue;
            }

            Add(names, given.AsSpan(start, i - start));
            start = i + 1;
        }

        return [.. names];
    }

    private static void Add(List<string> names, ReadOnlySpan<char> piece)
    {
        if (NameWord.IsCapitalRun(piece))
        {
            foreach (var c in piece)
            {
                Add(names, c.ToString());
            }

            return;
        }

        var key = Folding.Key(piece);
        if (key.Length > 0)
        {
            names.Add(key);
        }
    }
}
