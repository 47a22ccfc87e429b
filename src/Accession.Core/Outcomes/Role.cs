namespace Accession.Core.Outcomes;

/// <summary>What somebody does in the herbarium, and so what the program lets them do.</summary>
public enum Role
{
    /// <summary>Installs, backs up, and lets people in.</summary>
    Administrator,

    /// <summary>Receives batches, takes them into the register, protects localities, publishes.</summary>
    Curator,

    /// <summary>Numbers, treats, mounts and files sheets, mostly by scanning.</summary>
    Technician,
}
