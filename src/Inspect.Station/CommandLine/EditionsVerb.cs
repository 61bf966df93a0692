using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Station.Rulesets;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>editions</c>: every edition with its days, rules,
/// hash, whether it is as published, and which revision corrects it.</summary>
public static class EditionsVerb
{
    private const int AsPublished = 0;
    private const int SomeChanged = 1;
    private const int Unreadable = 3;

    /// <summary>Lists the editions.</summary>
    /// <returns>0; 1 when a published edition has changed or is gone; 3 when a ruleset cannot be read.</returns>
    public static int Run(string[] args, TextReader input, TextWriter output, TextWriter error)
    {
        ArgumentNullException.ThrowIfNull(input);
        if (RulesetsOption.Open(args, error) is not var (book, rest))
        {
            return Unreadable;
        }

        if (rest.Count > 0)
        {
            error.WriteLine($"editions takes no \"{rest[0]}\".");
            return Unreadable;
        }

        return List(book, output);
    }

    internal static int List(RulesetBook book, TextWriter output)
    {
        foreach (var edition in book.Editions.All)
        {
            var standing = Word(book.StandingOf(edition));
            Line(output, edition.Id, Day(edition.From), LastDay(book.Editions, edition), Rules(edition), edition.Sha256,
                book.Editions.RevisionOf(edition) is { } revision ? $"{standing}, corrected by {revision.Id}" : standing);
        }

        foreach (var id in book.Missing)
        {
            Line(output, id, "", "", "", "", Word(EditionStanding.Missing));
        }

        output.Flush();
        return book.Broken.Any() ? SomeChanged : AsPublished;
    }

    private static void Line(TextWriter output, string id, string first, string last, string rules, string hash, string standing) =>
        output.Write($"{id,-28}  {first,-10}  {last,-10}  {rules,-8}  {hash,-64}  {standing}\n");

    /// <summary>The last day in force: the day before the next edition, or the edition's own end, whichever comes first.</summary>
    private static string LastDay(EditionLibrary library, Edition edition)
    {
        var beforeNext = library.SuccessorOf(edition)?.AddDays(-1);
        var last = edition.Until is { } until && !(beforeNext < until) ? until : beforeNext;
        return last is { } day ? Day(day) : "open";
    }

    private static string Rules(Edition edition) => FormattableString.Invariant($"{edition.RuleIds.Count()} rules");

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Word(EditionStanding standing) => standing switch
    {
        EditionStanding.Published => "published",
        EditionStanding.Changed => "changed",
        EditionStanding.Missing => "missing",
        _ => "not published",
    };
}
