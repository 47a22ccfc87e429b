namespace Accession.Core.Matching;

/// <summary>Compares collectors.</summary>
internal static class WhoComparison
{
    private const int LettersForOneEdit = 4;
    private const int LettersForTwoEdits = 8;
    private const int LettersForTwoHeardAlike = 6;

    /// <summary>How two teams stand to each other, and whether more than one of their persons agrees.</summary>
    public static FieldEvidence Between(in TeamMark one, in TeamMark other, out bool teamAgrees)
    {
        teamAgrees = false;
        if (one.Count == 0 || other.Count == 0)
        {
            return new(Agreement.Missing);
        }

        if (one.IsGroup || other.IsGroup)
        {
            return one[0].Family == other[0].Family ? new(Agreement.Same)
                : one.IsGroup && other.IsGroup ? new(Agreement.Contradicts, Slip.OtherCollector)
                : new(Agreement.Missing);   // a crew and one of its people, or not: the label does not say
        }

        var leaders = Persons(one[0], other[0]);
        var companions = one.Count > 1 && other.Count > 1 ? CompanionsInCommon(one, other) : 0;
        teamAgrees = companions > 0 && leaders.Agreement is Agreement.Same or Agreement.Near;
        if (leaders.Agreement == Agreement.Same)
        {
            return leaders;
        }

        var crosswise = Crosswise(one, other);
        teamAgrees |= crosswise.Slip == Slip.TeamOrder;
        return leaders.Agreement == Agreement.Near && crosswise.Slip != Slip.TeamOrder ? leaders
            : crosswise.Agreement == Agreement.Near ? crosswise
            : companions > 0 && leaders.Slip != Slip.OtherInitials ? new(Agreement.Contradicts, Slip.OtherLeader)
            : leaders;
    }

    /// <summary>How two persons stand to each other.</summary>
    public static FieldEvidence Persons(PersonMark one, PersonMark other)
    {
        if (one.Family == 0 || other.Family == 0)
        {
            return ByInitials(one, other);
        }

        var family = Family(one, other);
        if (family.Agreement == Agreement.Contradicts)
        {
            return family;
        }

        var given = Given(one, other);
        if (given.Agreement == Agreement.Contradicts)
        {
            // Two slips in one name are another name, or nearly so.
            return family.Agreement == Agreement.Same ? given : new(Agreement.Contradicts, Slip.OtherCollector);
        }

        if (one.Suffix != other.Suffix)
        {
            return one.Suffix != 0 && other.Suffix != 0
                ? new(Agreement.Contradicts, Slip.OtherInitials)
                : new(Agreement.Near, Slip.SuffixOfName);
        }

        return family.Agreement == Agreement.Same ? given : family;
    }

    private static FieldEvidence Crosswise(in TeamMark one, in TeamMark other)
    {
        var isLeaderThere = IsAmong(one[0], other, from: 1);
        var isLeaderHere = IsAmong(other[0], one, from: 1);
        return (isLeaderThere, isLeaderHere) switch
        {
            (true, true) => new(Agreement.Near, Slip.TeamOrder),
            (false, false) => new(Agreement.Contradicts, Slip.OtherCollector),
            _ => new(Agreement.Near, Slip.CompanionListed),
        };
    }

    private static bool IsAmong(PersonMark person, in TeamMark team, int from)
    {
        for (var i = from; i < team.Count; i++)
        {
            if (Persons(person, team[i]) is { Agreement: Agreement.Same }
                or { Agreement: Agreement.Near, Slip: not Slip.InitialsForName })
            {
                return true;
            }
        }

        return false;
    }

    private static int CompanionsInCommon(in TeamMark one, in TeamMark other)
    {
        var count = 0;
        for (var i = 1; i < one.Count; i++)
        {
            count += IsAmong(one[i], other, from: 1) ? 1 : 0;
        }

        return count;
    }

    private static FieldEvidence Family(PersonMark one, PersonMark other)
    {
        if (LetterRow.AreOneSpelling(one.Family, other.Family))
        {
            return SecondsContradict(one, other)
                ? new(Agreement.Contradicts, Slip.OtherInitials)
                : new(Agreement.Same);
        }

        if (HasFamilyAmongGiven(one, other) || HasFamilyAmongGiven(other, one))
        {
            return new(Agreement.Near, Slip.OtherFamilyName);
        }

        var shortest = Math.Min(LetterRow.CountOf(one.Family), LetterRow.CountOf(other.Family));
        var distance = shortest < LettersForOneEdit ? int.MaxValue : LetterRow.Distance(one.Family, other.Family);
        var isHeardAlike = distance <= 2 && one.Sound == other.Sound;
        var lettersForTwo = isHeardAlike ? LettersForTwoHeardAlike : LettersForTwoEdits;
        var isFirstRight = LetterRow.At(one.Family, 0) == LetterRow.At(other.Family, 0);
        return distance == 1 || (distance == 2 && shortest >= lettersForTwo && isFirstRight)
            ? new(Agreement.Near, isHeardAlike ? Slip.FamilySound : Slip.FamilyLetters)
            : shortest >= LettersForOneEdit
                && (LetterRow.Begins(one.Family, other.Family) || LetterRow.Begins(other.Family, one.Family))
                ? new(Agreement.Near, Slip.FamilyCutShort)
                : new(Agreement.Contradicts, Slip.OtherCollector);
    }

    private static bool SecondsContradict(PersonMark one, PersonMark other) =>
        one.Second != 0 && other.Second != 0 && one.Second != other.Second;

    // "Claudia Gallardo Hernández" with Hernández taken for the family, and "C. Gallardo H.".
    private static bool HasFamilyAmongGiven(PersonMark one, PersonMark other)
    {
        var last = one.InitialCount - 1;
        return last >= 0
            && one.Initial(last) == LetterRow.At(other.Family, 0)
            && (other.Second == 0 ? one.Given != 0 && one.Given == other.Given
                : other.Second == LetterRow.At(one.Family, 0))
            && (last == 0 || other.InitialCount == 0 || one.Initial(0) == other.Initial(0));
    }

    private static FieldEvidence Given(PersonMark one, PersonMark other)
    {
        int n = one.InitialCount, m = other.InitialCount;
        if (n == 0 || m == 0)
        {
            return new(Agreement.Same, n == m ? Slip.None : Slip.FamilyOnly);
        }

        if (AgreeAsFarAsBothGo(one, other))
        {
            // Jane and John, Jim and James: one initial, and only a person can tell.
            return one.Given != 0 && other.Given != 0 && one.Given != other.Given
                ? new(Agreement.Near, Slip.GivenNames)
                : new(Agreement.Same);
        }

        var isSwapped = n > 1 && m > 1 && one.Initial(0) == other.Initial(1) && one.Initial(1) == other.Initial(0);
        return isSwapped || IsWithin(one, other) || IsWithin(other, one)
            ? new(Agreement.Near, Slip.GivenNames)
            : new(Agreement.Contradicts, Slip.OtherInitials);
    }

    private static bool AgreeAsFarAsBothGo(PersonMark one, PersonMark other)
    {
        for (var i = 0; i < Math.Min(one.InitialCount, other.InitialCount); i++)
        {
            if (one.Initial(i) != other.Initial(i))
            {
                return false;
            }
        }

        return true;
    }

    // "X. Munn" and "D. X. Munn": the initials of one stand in their order among those of the other.
    private static bool IsWithin(PersonMark few, PersonMark many)
    {
        var found = 0;
        for (var i = 0; i < many.InitialCount && found < few.InitialCount; i++)
        {
            found += many.Initial(i) == few.Initial(found) ? 1 : 0;
        }

        return found == few.InitialCount && few.InitialCount < many.InitialCount;
    }

    // "N. R. M." and "N. Ramírez-Mar.": the family name's initial stands among the initials.
    private static FieldEvidence ByInitials(PersonMark one, PersonMark other)
    {
        if (one.Family == 0 && other.Family == 0)
        {
            return one.Initials == other.Initials && (one.Given == other.Given || one.Given == 0 || other.Given == 0)
                ? new(Agreement.Same)
                : new(Agreement.Contradicts, Slip.OtherCollector);
        }

        var (initials, name) = one.Family == 0 ? (one, other) : (other, one);
        var family = LetterRow.At(name.Family, 0);
        var isThere = false;
        for (var i = 0; i < initials.InitialCount; i++)
        {
            isThere |= initials.Initial(i) == family;
        }

        var isGivenRight = name.InitialCount == 0 || initials.InitialCount == 1
            || initials.Initial(0) == name.Initial(0);
        return isThere && isGivenRight && initials.Given == 0
            ? new(Agreement.Near, Slip.InitialsForName)
            : new(Agreement.Contradicts, Slip.OtherCollector);
    }
}
