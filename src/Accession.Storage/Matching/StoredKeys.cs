namespace Accession.Storage.Matching;

/// <summary>A key under which a gathering of the register is met.</summary>
internal sealed class GatheringKey
{
    public long Key { get; private set; }

    public long GatheringId { get; private set; }

    public int Day { get; private set; }

    public int Detail { get; private set; }

    public bool IsIdentity { get; private set; }
}

/// <summary>What is compared of a gathering. It is made from the exact place, and guarded as such.</summary>
internal sealed class GatheringSignature
{
    public long GatheringId { get; private set; }

    public byte[] Signature { get; private set; } = [];
}

/// <summary>A key under which a row is met that is not in the register yet.</summary>
internal sealed class RowKey
{
    public long BatchId { get; private set; }

    public long Key { get; private set; }

    public long RowId { get; private set; }

    public int Line { get; private set; }

    public int Day { get; private set; }

    public int Detail { get; private set; }

    public bool IsIdentity { get; private set; }
}

/// <summary>What is compared of a row. It is made from the exact place, and guarded as such.</summary>
internal sealed class RowSignature
{
    public long RowId { get; private set; }

    public byte[] Signature { get; private set; } = [];
}

/// <summary>That a row is the record of a sheet that has a number here, whatever else it says.</summary>
internal sealed class RowRecord
{
    public long RowId { get; private set; }

    public long GatheringId { get; private set; }
}
