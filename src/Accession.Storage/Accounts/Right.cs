using Accession.Core.Outcomes;

namespace Accession.Storage.Accounts;

/// <summary>
/// What a program may do at the JSON doors; each door asks for one. The names are stored; do not rename.
/// </summary>
public enum Right
{
    /// <summary>Read sheets, accessions and gatherings as everyone who works here may.</summary>
    ReadRegister,

    /// <summary>Send lists, and follow their reading.</summary>
    SendLists,

    /// <summary>See rows, problems and findings, settle them, take rows in, protect places.</summary>
    Settle,

    /// <summary>Number sheets in hand.</summary>
    NumberSheets,

    /// <summary>Begin series, register rolls, make numbers void.</summary>
    KeepNumbers,

    /// <summary>Ask for archives and fetch them.</summary>
    Publish,

    /// <summary>Close and open series, hold mail, let people in.</summary>
    Administer,

    /// <summary>Tag parcels, say where they stand, list freezer loads and settle them.</summary>
    HandleParcels,

    /// <summary>Scan sheets at the step bench, put them in places, say under which name they are filed.</summary>
    WorkAtBench,

    /// <summary>Record opinions about the names of sheets, which wait for a curator.</summary>
    NameSheets,

    /// <summary>
    /// See who has access, let people in, change what their accounts are for, close and open them. Only an
    /// administrator's own program bears it, and no device.
    /// </summary>
    KeepAccounts,

    /// <summary>Read the sheets from the counties of one's account, as a weed officer's pages show them.</summary>
    ReadCounties,

    /// <summary>Read the sheets that one collected, as a collector's pages show them.</summary>
    ReadCollected,

    /// <summary>Begin piles that came without a list, and key their labels.</summary>
    KeyLabels,
}

/// <summary>Who may have which right, and as what its bearer acts.</summary>
public static class Rights
{
    public static IReadOnlyList<Right> All { get; } = Enum.GetValues<Right>();

    /// <summary>
    /// The rights that a device may bear: who lets people in is always somebody, and a device has no counties and
    /// collected nothing.
    /// </summary>
    public static IReadOnlyList<Right> OfDevices { get; } = [.. All.Where(right => right.IsForDevices())];

    /// <summary>The rights that somebody of these roles may give to a program.</summary>
    public static IEnumerable<Right> Of(IReadOnlySet<Role> roles) => All.Where(right => right.IsFor(roles));

    /// <summary>Whether a person of these roles has the right.</summary>
    public static bool IsFor(this Right right, IReadOnlySet<Role> roles) => right switch
    {
        Right.ReadRegister =>
            // It opens accessions too, which are for those who work here.
            roles.Overlaps([Role.Curator, Role.Technician, Role.Administrator]),
        Right.NumberSheets or Right.HandleParcels or Right.WorkAtBench or Right.KeyLabels =>
            roles.Overlaps([Role.Curator, Role.Technician]),
        Right.NameSheets => roles.Overlaps([Role.Curator, Role.Determiner]),
        Right.Administer or Right.KeepAccounts => roles.Contains(Role.Administrator),
        Right.ReadCounties => roles.Contains(Role.WeedOfficer),
        Right.ReadCollected => roles.Contains(Role.Collector),
        _ => roles.Contains(Role.Curator),
    };

    /// <summary>Whether a device may bear the right.</summary>
    public static bool IsForDevices(this Right right) => right is not
        (Right.KeepAccounts or Right.ReadCounties or Right.ReadCollected);

    /// <summary>
    /// The roles in which a program acts: those alone that its rights need, whatever else its person may do. Only who
    /// settles sees what a curator sees.
    /// </summary>
    public static IReadOnlySet<Role> ActsAs(IEnumerable<Right> rights) => rights
        .Select(right => right switch
        {
            // Who may name sheets reads all of the register, as everyone may know it.
            Right.ReadRegister => Role.Determiner,
            Right.Settle => Role.Curator,
            Right.NumberSheets or Right.HandleParcels or Right.WorkAtBench or Right.KeyLabels => Role.Technician,
            Right.NameSheets => Role.Determiner,
            Right.Administer or Right.KeepAccounts => Role.Administrator,
            Right.ReadCounties => Role.WeedOfficer,
            Right.ReadCollected => Role.Collector,
            _ => (Role?)null,
        })
        .OfType<Role>().ToHashSet();
}
