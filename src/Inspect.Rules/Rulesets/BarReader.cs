using Inspect.Sheets.Json;

namespace Inspect.Rules.Rulesets;

/// <summary>Reads rules that bar makers, models or serials.</summary>
internal static class BarReader
{
    private const int MostNames = 60;

    /// <summary>The rule, or null with the faults added.</summary>
    /// <param name="written">A rule whose fact is a text on the ball.</param>
    /// <param name="fact">That fact.</param>
    /// <param name="forbids">Whether the rule forbids; a name can only be barred.</param>
    /// <param name="reference">Where it was read.</param>
    /// <param name="sentences">Its sentences; one with patterns quotes the pattern and what it matched.</param>
    public static Rule.Barred? Read(StrictObject written, Fact fact, bool forbids, Reference reference, Sentences sentences)
    {
        var names = written.Has("among") ? Names(written, "among") : [];
        var patterns = written.Has("patterns") ? Patterns(written, fact, sentences) : [];
        var answers = written.Texts("answers", 2);
        if (!forbids)
        {
            written.Refuse("kind", "A name or a serial can only be barred; use the kind forbidden.");
        }

        if (!written.Has("among") && !written.Has("patterns"))
        {
            written.Refuse("fact", "This fact is a text; name what is barred in \"among\", or serials in \"patterns\".");
        }

        if (answers is not { Count: 2 })
        {
            written.Refuse("answers", "Give two answers: the words for barred, then the words for not barred.");
        }

        return names is null || patterns is null || answers is not { Count: 2 } ? null : new Rule.Barred
        {
            Id = "",
            Reference = reference,
            Sentences = sentences,
            Fact = fact,
            Names = names,
            Patterns = patterns,
            Answers = (answers[0], answers[1]),
        };
    }

    /// <summary>A list of names, or null with the fault added.</summary>
    public static IReadOnlyList<BallName>? Names(StrictObject members, string name)
    {
        var names = members.Texts(name, MostNames);
        if (names is { Count: 0 })
        {
            members.Refuse(name, "This list has no names; name at least one.");
        }

        return names?.Select(text => new BallName(text)).ToList();
    }

    private static List<SerialPattern>? Patterns(StrictObject written, Fact fact, Sentences sentences)
    {
        if (fact != Fact.Serial)
        {
            written.Refuse("patterns", "Only serials follow patterns; write the names in \"among\".");
        }

        if (!Placeholders.In(sentences.Fail).Contains("pattern") || !Placeholders.In(sentences.Fail).Contains("matched"))
        {
            written.Refuse("fail", "A rule with patterns quotes them to the bowler; write {pattern} and {matched} into this sentence.");
        }

        var texts = written.Texts("patterns", MostNames);
        var patterns = texts?.Select(SerialPattern.Of).OfType<SerialPattern>().ToList();
        if (texts is { Count: 0 } || texts?.Count != patterns?.Count)
        {
            var wrong = texts!.FirstOrDefault(text => SerialPattern.Of(text) is null);
            written.Refuse("patterns",
                $"\"{wrong}\" is not a serial pattern; write letters and digits, ? for any character, "
                    + "# for any digit and * at the end for any rest.");
        }

        return patterns;
    }
}
