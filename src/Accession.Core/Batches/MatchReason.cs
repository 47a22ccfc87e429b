namespace Accession.Core.Batches;

/// <summary>Why a column has the meaning that it has, or none.</summary>
public enum MatchReason
{
    /// <summary>The heading says nothing we know; the column is kept to the letter.</summary>
    NotMatched,

    /// <summary>The heading is a Darwin Core term.</summary>
    DarwinCoreName,

    /// <summary>The heading is one that people use for this.</summary>
    UsualSynonym,

    /// <summary>A person chose so for an earlier list of the same source.</summary>
    AsLastTime,

    /// <summary>A person chose so for this list.</summary>
    ChosenByPerson,
}
