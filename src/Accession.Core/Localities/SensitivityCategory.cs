namespace Accession.Core.Localities;

/// <summary>tmp</summary>
public enum SensitivityCategory
{
    /// <summary>tmp</summary>
    Extreme = 1,
}
