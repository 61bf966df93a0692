using System.Globalization;
using Inspect.Station.Access;

namespace Inspect.Station.Record;

/// <summary>A part of a ball that is compared with its record.</summary>
public enum Compared
{
    /// <summary>Maker, model or what else is written on it.</summary>
    Name,

    /// <summary>The serial number.</summary>
    Serial,

    /// <summary>The numbered seal or tag.</summary>
    Tag,

    /// <summary>The holes: which there are, and their sizes.</summary>
    Holes,
}

/// <summary>One comparison of a ball in use with its recorded inspection, from the register. Its remark is stored separately
/// and can be struck.</summary>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="Inspection">The inspection that the ball was compared with.</param>
/// <param name="Differs">What differs; empty where it is the ball.</param>
/// <param name="HasRemark">Whether a remark was written.</param>
/// <param name="Remark">The remark; null when there is none or it was struck.</param>
/// <param name="By">Who compared.</param>
/// <param name="At">When.</param>
public sealed record SpotCheck(
    long Seq, InspectionNumber Inspection, IReadOnlyList<Compared> Differs, bool HasRemark, string? Remark, PersonId By, DateTimeOffset At)
{
    /// <summary>The words for what is compared, in the register and between programs.</summary>
    public static readonly IReadOnlyDictionary<string, Compared> Words = Inspect.Sheets.Words.Written(
        ("name", Compared.Name), ("serial", Compared.Serial), ("tag", Compared.Tag), ("holes", Compared.Holes));

    /// <summary>What people call a part that is compared.</summary>
    public static string Title(Compared part) => part switch
    {
        Compared.Name => "maker or model",
        Compared.Serial => "serial",
        Compared.Tag => "tag or mark",
        _ => "holes",
    };

    /// <summary>Whether it is the ball of the record.</summary>
    public bool IsTheBall => Differs.Count == 0;

    /// <summary>What was found, in a few words.</summary>
    public string Found => IsTheBall ? "It is the ball."
        : $"It is not the ball as recorded. Differs: {string.Join(", ", Differs.Select(Title))}.";

    /// <summary>The spot check in a sentence or two.</summary>
    /// <param name="zone">The venue's time zone.</param>
    /// <param name="by">The name of the person who compared; null once struck.</param>
    public string Sentence(TimeZoneInfo zone, string? by) => string.Create(
        CultureInfo.InvariantCulture,
        $"Spot check on {TimeZoneInfo.ConvertTime(At, zone):d MMMM yyyy, HH:mm} by {by ?? "name struck"}: {Found}{Remarked}");

    /// <summary>The spot check as a point of a list that has no times.</summary>
    /// <inheritdoc cref="Sentence"/>
    public string Point(string? by) => $"Spot check by {by ?? "name struck"}: {Found}{Remarked}";

    private string Remarked => Remark is { } text ? $" {text}{(text[^1] is '.' or '!' or '?' ? "" : ".")}"
        : HasRemark ? " The remark was struck." : "";
}
