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

    /// <summary>Names sheets: an expert who is here often enough to have an account. Reads the register.</summary>
    Determiner,

    /// <summary>Collected plants that came here: follows the sheets of whom a curator said this is.</summary>
    Collector,

    /// <summary>Watches over weeds: reads what was found in the counties of the account, and nothing else.</summary>
    WeedOfficer,
}
