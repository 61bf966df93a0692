using Inspect.Ball;
using Inspect.Sheets.Json;

namespace Inspect.Sheets.Described;

/// <summary>Puts parts of a description together and turns what physics refuses into faults with the path of their member.</summary>
internal static class DescriptionFaults
{
    /// <summary>What <paramref name="make"/> makes, or null with its faults added under <paramref name="at"/>.</summary>
    /// <param name="at">The path before each member, such as <c>holes[0].</c>; nothing where members carry their whole path.</param>
    /// <param name="faults">Where faults are collected.</param>
    /// <param name="make">The making.</param>
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
