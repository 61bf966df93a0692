using System.Globalization;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Prepare;

namespace Inspect.Station.ModelLists;

/// <summary>What one list says of a ball's model.</summary>
/// <param name="Read">The list, and how the event reads it.</param>
/// <param name="Version">The version that was read.</param>
/// <param name="Day">The day as on which it was read.</param>
/// <param name="Ball">The model and its maker, as typed.</param>
/// <param name="Rows">Its rows of the model; none when it does not have it.</param>
public sealed record ListAnswer(EventList Read, ModelListVersion Version, DateOnly Day, string Ball, IReadOnlyList<ModelRow> Rows)
{
    /// <summary>Models of the list with names near it, when it does not have it.</summary>
    public IReadOnlyList<(string Maker, string Model)> Near { get; init; } = [];

    /// <summary>Whether the model is listed on the day; null when the list does not have it: its name may be spelled otherwise.</summary>
    public Listing? Says => Rows.Count == 0 ? null : Rows.Any(row => row.IsListedOn(Day)) ? Listing.Yes : Listing.No;

    /// <summary>What it says, in a sentence.</summary>
    public string Sentence
    {
        get
        {
            var name = $"\"{Read.List.Name}\" of {EventWords.Day(Version.Day)}";
            var later = Version.Day > Day ? $" There is no version of it from {EventWords.Day(Day)} or before." : "";
            if (Rows.Count == 0)
            {
                var near = string.Join(", ", Near.Select(each => $"{each.Model} of {each.Maker}"));
                return $"{name} has no {Ball}.{(near.Length == 0 ? "" : $" Near it: {near}.")}{later}";
            }

            var row = Rows.FirstOrDefault(each => each.IsListedOn(Day)) ?? Rows[0];
            var notThen = Says == Listing.No && row.IsListed ? ", so not on this day" : "";
            return $"{name}: {row.Model} of {row.Maker}, {row.Words}{notThen}.{later}";
        }
    }
}

/// <summary>What the lists that an event reads say of a ball.</summary>
/// <param name="All">What each says, the one of approved balls first.</param>
/// <param name="Figures">The declared figures of the model; null when no list has them for this weight.</param>
/// <param name="FiguresSentence">The same in a sentence, with where they are from.</param>
public sealed record ListAnswers(IReadOnlyList<ListAnswer> All, DeclaredFigures? Figures, string? FiguresSentence)
{
    private const decimal GramsPerPound = 16 * Units.GramsPerOunce;

    /// <summary>What the list of approved balls says; null when the event reads none.</summary>
    public ListAnswer? Approved => All is [{ Read.IsApproved: true } first, ..] ? first : null;

    /// <summary>What these lists say of a ball of a weight.</summary>
    /// <param name="all">What each says, the one of approved balls first.</param>
    /// <param name="grams">The weight of the ball in grams; null while it is not known. Figures are read for the nearest pound.</param>
    public static ListAnswers Of(IReadOnlyList<ListAnswer> all, decimal? grams)
    {
        var pounds = grams is { } known ? (int?)Math.Round(known / GramsPerPound, MidpointRounding.AwayFromZero) : null;
        var found = all.SelectMany(answer => answer.Rows.Where(row => row.HasFigures && (row.Pounds is null || row.Pounds == pounds))
            .OrderBy(row => row.Pounds is null).Select(row => (answer.Read.List.Name, Row: row))).FirstOrDefault();
        if (found.Row is not { } figures)
        {
            return new ListAnswers(all, null, null);
        }

        var said = string.Join(", ", new[]
        {
            figures.Rg is { } rg ? $"RG {rg}" : null,
            figures.Differential is { } differential ? $"differential {differential}" : null,
            figures.Intermediate is { } intermediate ? $"intermediate differential {intermediate}" : null,
        }.OfType<string>());
        var weight = figures.Pounds is { } at ? string.Create(CultureInfo.InvariantCulture, $" at {at} lb") : "";
        return new ListAnswers(
            all,
            new DeclaredFigures(
                Read(figures.Rg, Quantity.Length), Read(figures.Differential, Quantity.SignedLength),
                Read(figures.Intermediate, Quantity.SignedLength)),
            $"Declared{weight} in \"{found.Name}\": {said}.");
    }

    /// <summary>The sheet with what the lists answer, where nothing else was said.</summary>
    public Sheet Complete(Sheet sheet) => sheet.Ball is not { } ball ? sheet : sheet with
    {
        Ball = ball with { Listed = ball.Listed ?? Approved?.Says, Declared = ball.Declared ?? Figures },
    };

    /// <summary>Whether an answer is another than that of the list of approved balls, so that it needs a reason.</summary>
    public bool IsOtherwise(Listing? said) =>
        said is { } answer && Approved is { } list && (list.Says is { } says ? answer != says : answer == Listing.Yes);

    private static Reading? Read(string? text, Quantity quantity) => text is null ? null : ReadingParser.Parse(text, quantity).Reading;
}
