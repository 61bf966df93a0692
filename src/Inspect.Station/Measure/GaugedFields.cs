using Inspect.Sheets;

namespace Inspect.Station.Measure;

/// <summary>The fields of what is gauged on the whole ball: its size always, hardness and roughness where the rules ask for them.</summary>
internal static class GaugedFields
{
    /// <summary>Whether it is gauged on every ball.</summary>
    public static bool IsUsual(SheetMember member) => member.Stops > 0;

    /// <summary>The fields that stand open, each with its label.</summary>
    public static IEnumerable<(string Path, string Label)> Open(SheetMember member) => Of(member).Take(Math.Max(member.Open, 1));

    /// <summary>The fields for further readings.</summary>
    public static IEnumerable<(string Path, string Label)> More(SheetMember member) => Of(member).Skip(Math.Max(member.Open, 1));

    private static IEnumerable<(string Path, string Label)> Of(SheetMember member) =>
        member.FieldNames.Select((field, i) => (field, member.LabelOf(i)));
}
