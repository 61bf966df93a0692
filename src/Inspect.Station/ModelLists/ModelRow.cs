using System.Globalization;
using Inspect.Rules.Replaying;
using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.ModelLists;

/// <summary>One row of a list of models.</summary>
/// <param name="Maker">The maker.</param>
/// <param name="Model">The model.</param>
/// <param name="Status">The status in the list's own word; null where it has none.</param>
/// <param name="IsListed">Whether that word means that the model is on the list.</param>
/// <param name="From">From when on; null where the list does not say.</param>
/// <param name="Until">The last day; null where no end is said.</param>
/// <param name="Hardness">Hardness as made, Shore D, as the list writes it.</param>
/// <param name="Pounds">The weight of the figures in pounds; null where they are for every weight.</param>
/// <param name="Rg">The declared RG with its unit.</param>
/// <param name="Differential">The declared differential with its unit.</param>
/// <param name="Intermediate">The declared intermediate differential with its unit.</param>
public sealed record ModelRow(
    string Maker, string Model, string? Status = null, bool IsListed = true, DateOnly? From = null, DateOnly? Until = null,
    string? Hardness = null, int? Pounds = null, string? Rg = null, string? Differential = null, string? Intermediate = null)
{
    /// <summary>The lightest and the heaviest ball that figures are read for, in pounds: what editions of the rules know.</summary>
    public const int Lightest = 4, Heaviest = 16;

    private static readonly string[] Heads =
        ["maker", "model", "status", "listed", "from", "until", "hardness", "pounds", "rg", "differential", "intermediate"];

    /// <summary>Whether it has a figure.</summary>
    public bool HasFigures => (Rg ?? Differential ?? Intermediate) is not null;

    /// <summary>Whether it says on a day that the model is on the list.</summary>
    public bool IsListedOn(DateOnly day) => IsListed && !(From > day) && !(Until < day);

    /// <summary>A name as it is compared: accents, case, blanks and hyphens aside. A plus and an ampersand count, since models differ by
    /// them.</summary>
    public static string KeyOf(string name) => string.Concat(NameFold.Words(
        name.Replace("+", " plus ", StringComparison.Ordinal).Replace("&", " and ", StringComparison.Ordinal)));

    /// <summary>Rows as a CSV file with its heads, sorted, so that the same list has the same bytes.</summary>
    public static string Csv(IEnumerable<ModelRow> rows) => CsvRow.Of(Heads) + string.Concat(rows.Select(row => CsvRow.Of(
        row.Maker, row.Model, row.Status, row.IsListed ? "yes" : "no", Day(row.From), Day(row.Until), row.Hardness,
        row.Pounds?.ToString(CultureInfo.InvariantCulture), row.Rg, row.Differential, row.Intermediate))
        .Order(StringComparer.Ordinal));

    /// <summary>What it says of the model, in a few words, as the list has it.</summary>
    public string Words => string.Join(", ", new[]
    {
        Status ?? (IsListed ? "on the list" : "not on the list"),
        From is { } from ? $"from {EventWords.Day(from)}" : null,
        Until is { } until ? $"until {EventWords.Day(until)}" : null,
        Hardness is { } hardness ? $"made at {hardness} D" : null,
    }.OfType<string>());

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
