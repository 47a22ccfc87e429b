namespace Accession.Server.Mail;

/// <summary>
/// One letter at a time in each process: a slow mail server then keeps one worker busy, and lists are read meanwhile.
/// </summary>
internal sealed class MailTurn : IDisposable
{
    private readonly SemaphoreSlim _turn = new(1, 1);

    /// <summary>Takes the turn, without waiting; whoever has it gives it back.</summary>
    public bool TryTake() => _turn.Wait(TimeSpan.Zero);

    public void GiveBack() => _turn.Release();

    public void Dispose() => _turn.Dispose();
}
