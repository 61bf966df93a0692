using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Desk.Charts;

/// <summary>The members of a sheet whose readings are drawn, one for each quantity of the rules.</summary>
internal static class MeasuredMember
{
    /// <summary>The member at a path such as <c>holes[2].depth</c>, or null when the rules do not measure it. A piece
    /// counts with its hole.</summary>
    public static SheetMember? Of(string path) =>
        Catalogue.At(path) is { Kind: MemberKind.Reading, Rule: { } term } ? Catalogue.Of(term.Quantity) : null;

    /// <summary>The quantity of its readings. A length may be zero here, because the difference of two diameters is a length.</summary>
    public static Quantity QuantityOf(SheetMember member) =>
        member.Quantity == Quantity.Length ? Quantity.SignedLength : member.Quantity!.Value;
}
