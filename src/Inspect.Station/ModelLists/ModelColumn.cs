using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Station.Access;

namespace Inspect.Station.ModelLists;

/// <summary>What a column of a list of models has.</summary>
public enum ModelPart
{
    /// <summary>Nothing that is read.</summary>
    Ignored,

    /// <summary>The maker.</summary>
    Maker,

    /// <summary>The model.</summary>
    Model,

    /// <summary>The status, as a word.</summary>
    Status,

    /// <summary>From when on it counts.</summary>
    From,

    /// <summary>The last day on which it counts.</summary>
    Until,

    /// <summary>Hardness as made.</summary>
    Hardness,

    /// <summary>The weight of the row's figures.</summary>
    Weight,

    /// <summary>The declared RG.</summary>
    Rg,

    /// <summary>The declared differential.</summary>
    Differential,

    /// <summary>The declared intermediate differential.</summary>
    Intermediate,
}

/// <summary>A column of a list of models.</summary>
/// <param name="Part">What it has.</param>
/// <param name="Pounds">The weight for which its figure is, where each weight has its own column.</param>
public readonly partial record struct ModelColumn(ModelPart Part, int? Pounds = null)
{
    /// <summary>Every part: its word in a form, and its label.</summary>
    public static IReadOnlyList<(ModelPart Part, string Word, string Label)> Parts { get; } =
    [
        (ModelPart.Ignored, "ignored", "Left out"),
        (ModelPart.Maker, "maker", "Maker"),
        (ModelPart.Model, "model", "Model"),
        (ModelPart.Status, "status", "Status"),
        (ModelPart.From, "from", "From"),
        (ModelPart.Until, "until", "Until"),
        (ModelPart.Hardness, "hardness", "Hardness as made"),
        (ModelPart.Weight, "weight", "Weight of the figures"),
        (ModelPart.Rg, "rg", "Declared RG"),
        (ModelPart.Differential, "differential", "Declared differential"),
        (ModelPart.Intermediate, "intermediate", "Intermediate differential"),
    ];

    private static readonly Dictionary<string, ModelPart> Heads = new (ModelPart Part, string[] Heads)[]
    {
        (ModelPart.Maker,
        [
            "maker", "brand", "company", "manufacturer", "make", "hersteller", "marke", "marque", "marca", "tillverkare",
        ]),
        (ModelPart.Model,
        [
            "model", "ball", "ball name", "name", "ball model", "model name", "product", "modell", "modele", "modelo", "ballname",
            "bollnamn",
        ]),
        (ModelPart.Status, ["status", "state", "listed", "approved", "on the list", "statut", "estado"]),
        (ModelPart.From,
        [
            "from", "approved on", "date approved", "approval date", "approved date", "since", "listed since", "valid from", "date", "ab",
            "gueltig ab", "gultig ab", "release date", "date added", "added",
        ]),
        (ModelPart.Until,
        [
            "until", "to", "expires", "expiry", "expiration", "valid until", "valid to", "revoked on", "date revoked", "removed on", "bis",
            "end", "end date", "withdrawn on",
        ]),
        (ModelPart.Hardness, ["hardness", "hardness as made", "durometer", "shore d", "made at", "haerte", "harte"]),
        (ModelPart.Weight, ["weight", "lb", "lbs", "pounds", "gewicht", "poids", "peso", "ball weight"]),
        (ModelPart.Rg, ["rg", "low rg", "min rg", "radius of gyration"]),
        (ModelPart.Differential, ["differential", "diff", "rg differential", "rg diff", "total differential", "total diff"]),
        (ModelPart.Intermediate,
        [
            "intermediate", "intermediate differential", "int diff", "intermediate diff", "mass bias", "mb diff", "psa diff", "asymmetry",
        ]),
    }.SelectMany(each => each.Heads.Select(head => (head, each.Part))).ToDictionary(each => each.head, each => each.Part);

    /// <summary>Every choice for a column in a form: the parts, and the figures of each weight.</summary>
    public static IEnumerable<(string Word, string Label)> Choices => Parts.Select(part => (part.Word, part.Label)).Concat(
        from part in Parts
        where IsFigure(part.Part)
        from pounds in Enumerable.Range(ModelRow.Lightest, ModelRow.Heaviest - ModelRow.Lightest + 1).Reverse()
        select (new ModelColumn(part.Part, pounds).Word, $"{part.Label} at {pounds} lb"));

    /// <summary>Its word in a form.</summary>
    public string Word
    {
        get
        {
            var part = Part;
            return Parts.First(each => each.Part == part).Word + (Pounds is { } pounds ? Invariant($"-{pounds}") : "");
        }
    }

    /// <summary>The column of a word; one that is left out when there is no such word.</summary>
    public static ModelColumn Of(string? word)
    {
        var (name, pounds) = word?.Split('-') is [var first, var second] && int.TryParse(
            second, NumberStyles.None, CultureInfo.InvariantCulture, out var read) && IsWeight(read) ? (first, (int?)read) : (word, null);
        var part = Parts.FirstOrDefault(each => each.Word == name).Part;
        return new ModelColumn(part, IsFigure(part) ? pounds : null);
    }

    /// <summary>The column that a head names, such as <c>RG 15 lb</c>; one that is left out when it names none.</summary>
    public static ModelColumn OfHead(string head)
    {
        var match = WithWeight().Match(head);
        var whole = Heads.GetValueOrDefault(string.Join(' ', NameFold.Words(head)));
        if (whole != ModelPart.Ignored || !match.Success)
        {
            return new ModelColumn(whole);
        }

        var rest = string.Join(' ', NameFold.Words(head.Remove(match.Index, match.Length)));
        var pounds = int.Parse(match.Groups["pounds"].Value, CultureInfo.InvariantCulture);
        return Heads.GetValueOrDefault(rest) is var part && IsFigure(part) && IsWeight(pounds)
            ? new ModelColumn(part, pounds) : default;
    }

    /// <summary>Whether a weight in pounds is one that figures are read for.</summary>
    public static bool IsWeight(int pounds) => pounds is >= ModelRow.Lightest and <= ModelRow.Heaviest;

    private static bool IsFigure(ModelPart part) => part is ModelPart.Rg or ModelPart.Differential or ModelPart.Intermediate;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    [GeneratedRegex(@"(?<!\d)(?<pounds>\d{1,2})\s*(?:lbs?\b\.?|#|pounds?\b)?", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex WithWeight();
}
