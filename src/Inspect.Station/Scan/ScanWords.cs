using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;

namespace Inspect.Station.Scan;

/// <summary>What a scanned slip says in a language: whether the ball may be used now, what to do next, and which ball it is.</summary>
/// <param name="words">The words of the language.</param>
/// <param name="found">The inspection of the slip.</param>
/// <param name="now">The inspection that replaced it in the end; itself where none did.</param>
/// <param name="held">Its event.</param>
internal sealed class ScanWords(Phrases words, FoundInspection found, FoundInspection now, Event held)
{
    private static readonly IReadOnlyDictionary<Language, Phrases> All = Phrases.Read("scan");

    /// <summary>The words of these pages in a language.</summary>
    public static Phrases In(Language language) => All[language];

    private Inspection Inspection => found.Inspection;

    private Decision? Decision => found.IsSuperseded ? null : found.Ruling?.Decision;

    /// <summary>Whether the slip counts as it was recorded.</summary>
    public bool Stands => Standing.WordOf(found) == Standing.Stands;

    /// <summary>Whether the ball may be used, by what counts now.</summary>
    public Use Use { get; } = Standing.UseOf(found);

    /// <summary>What counts now, as the heading.</summary>
    public string Head => words[(Standing.WordOf(found), Use) switch
    {
        (Standing.Superseded, _) => "head.superseded",
        (Standing.Withdrawn, _) => "head.withdrawn",
        (_, Use.Yes) => "head.may",
        (_, Use.OnCondition) => "head.until",
        (Standing.Stands, _) when Inspection.Verdict.Outcome == Outcome.Hold => "head.notYet",
        _ => "head.mayNot",
    }];

    /// <summary>The title of the window.</summary>
    public string Title => words.Fill("title", ("number", Inspection.Number.ToString()),
        ("head", Use == Use.OnCondition ? $"{Head} {Typed(found.Ruling!.Condition).Text}" : Head));

    /// <summary>What to do next.</summary>
    public string Next => Decision switch
    {
        _ when found.IsSuperseded && now.Ruling?.Decision.IsWithdrawal() != true =>
            words.Fill("next.superseded", ("number", now.Inspection.Number.ToString())),
        _ when found.IsSuperseded => words["next.again"],
        Record.Decision.Accept => words["next.pass"],
        Record.Decision.Allow => words["next.allow"],
        Record.Decision.Remeasure => words["next.remeasure"],
        not null => words["next.again"],
        _ => words[$"next.{VerdictJson.WordOf(Inspection.Verdict.Outcome)}"],
    };

    /// <summary>Who ruled and when, before the reason; null where no ruling counts now.</summary>
    public string? RuledBy => Decision is { } decision ? words.Fill($"ruling.{decision.Word()}", ("day", DayOf(found.Ruling!.At))) : null;

    /// <summary>A text of a ruling as it was typed, or why it is not shown.</summary>
    public Told Typed(string? text) => text is null ? new(words["struck"])
        : text == YoungBowlers.Hidden ? new(words["hidden"]) : new(text, Lang: "");

    /// <summary>The grip under which the ball was judged.</summary>
    public string Grip
    {
        get
        {
            if (Inspection.Sheet.Grip is not { Digits: { } digits } grip)
            {
                return words["grip.unwritten"];
            }

            var names = digits.Select(digit => words[$"digit.{Words.Of(digit)}"]).ToList();
            var list = names.Count < 2 ? string.Concat(names)
                : $"{string.Join(words["list.comma"], names.SkipLast(1))}{words["list.and"]}{names[^1]}";
            var form = names.Count == 0 ? "grip.none" : digits.Contains(Digit.Thumb) ? "grip.holes" : "grip.noThumb";
            return words.Fill(form, ("hand", words[$"hand.{(grip.Hand is { } hand ? Words.Of(hand) : "none")}"]), ("digits", list));
        }
    }

    private string DayOf(DateTimeOffset at) => words.Language.Day(held.DayAt(at));
}
