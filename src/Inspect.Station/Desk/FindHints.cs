using Inspect.Station.Access;

namespace Inspect.Station.Desk;

/// <summary>A filter that a typed text may have meant: its words, and the search that it leads to.</summary>
public sealed record FindHint(string Words, string Query);

/// <summary>What was typed into the one search field beside a name or a number: an event, an inspector, a verdict, a rule, an instrument.</summary>
/// <remarks>These fit too many inspections to be mixed into what was found, so each is offered as a filter, one press away.</remarks>
public static class FindHints
{
    private const int Fewest = 3;
    private const int Most = 6;

    private static readonly (string Member, string Value, string Words, string Said)[] Fixed =
    [
        ("outcome", "pass", "verdict: Pass", "pass passed"), ("outcome", "fail", "verdict: Fail", "fail failed"), ("outcome", "hold", "verdict: Hold", "hold held open undecided"),
        ("standing", Record.Standing.Superseded, "replaced", "replaced superseded"), ("standing", Record.Standing.Ruled, "ruled on", "ruled ruling"),
        ("standing", Record.Standing.Withdrawn, "withdrawn", "withdrawn"),
    ];

    /// <summary>What may have been meant, a few, without what is set already.</summary>
    /// <param name="asked">The search.</param>
    /// <param name="choices">What the filters can be set to.</param>
    /// <param name="hasModels">Whether the text is written on some ball as maker or model.</param>
    public static IReadOnlyList<FindHint> Of(FindAsked asked, DeskChoices choices, bool hasModels)
    {
        if (asked["q"] is not { } typed || NameFold.Words(typed).Sum(word => word.Length) < Fewest)
        {
            return [];
        }

        return
        [
            .. hasModels && asked["model"] is null
                ? [new FindHint($"maker or model “{typed}”", asked.Query(["q", FindAsked.Cursor], ("model", typed)))]
                : Array.Empty<FindHint>(),
            .. Choices(choices).Where(choice => asked[choice.Member] is null && NameFold.Matches(typed, choice.Said))
                .Take(Most)
                .Select(choice => new FindHint(choice.Words, asked.Query(["q", FindAsked.Cursor], (choice.Member, choice.Value)))),
        ];
    }

    private static IEnumerable<(string Member, string Value, string Words, string Said)> Choices(DeskChoices choices) =>
    [
        .. choices.Events.Select(held => ("event", held.Id, $"event {held.Id}", $"{held.Id} {held.Name}")),
        .. choices.Officials.Select(official => ("inspector", official.SignInName, $"recorded by {official.Name}", $"{official.Name} {official.SignInName}")),
        .. Fixed,
        .. choices.Rules.Select(rule => ("rule", rule.Value, $"not met or open: {rule.Words.ToLowerInvariant()}", rule.Words)),
        .. choices.Instruments.Select(name => ("instrument", name, $"read with {name}", name)),
    ];
}
