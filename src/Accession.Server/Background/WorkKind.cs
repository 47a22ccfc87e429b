namespace Accession.Server.Background;

/// <summary>A kind of work, as its slice names it.</summary>
/// <param name="Name">As it stands in the table of work.</param>
/// <param name="AfterRestore">What becomes of a row that was waiting in a register that is restored.</param>
internal sealed record WorkKind(string Name, AfterRestore AfterRestore);

/// <summary>What becomes of work that waits in a restored register, which may have been done since.</summary>
internal enum AfterRestore
{
    /// <summary>It publishes, or may: it rests until somebody who knows what went out goes on with it.</summary>
    Rests,

    /// <summary>It changes only the register, or another rule holds it: it begins where the backup has it.</summary>
    GoesOn,
}
