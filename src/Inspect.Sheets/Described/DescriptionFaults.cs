using Inspect.Ball;
using Inspect.Sheets.Json;

namespace Inspect.Sheets.Described;

/// <summary>Makes parts of a description and turns what the physics refuses into faults, each with the path of its member.</summary>
internal static class DescriptionFaults
{
    /// <summary>What <paramref name="make"/> returns, or null when it refuses; its faults are then added under
    /// <paramref name="at"/>.</summary>
    /// <param name="at">The path before each member, such as <c>holes[0].</c>; empty when members have their whole path.</param>
    /// <param name="faults">Where faults are collected.</param>
    /// <param name="make">Makes the part.</param>
    public static T? Collect<T>(string at, List<Fault> faults, Func<T> make)
        where T : class
    {
        try
        {
            return make();
        }
        catch (DescriptionException refused)
        {
            faults.AddRange(refused.Faults.Select(fault => new Fault(at + fault.Member, fault.Message)));
            return null;
        }
    }
}
