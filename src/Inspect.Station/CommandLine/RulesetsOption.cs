using Inspect.Station.Rulesets;

namespace Inspect.Station.CommandLine;

/// <summary>The option <c>--rulesets DIR</c> that every verb about rules takes.</summary>
internal static class RulesetsOption
{
    private const string Name = "--rulesets";

    /// <summary>The book of rules, and the other arguments; null when a fault was written to <paramref name="error"/>.</summary>
    public static (RulesetBook Book, IReadOnlyList<string> Others)? Open(IReadOnlyList<string> args, TextWriter error)
    {
        var rest = new List<string>();
        string? folder = null;
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] != Name)
            {
                rest.Add(args[i]);
            }
            else if (++i == args.Count)
            {
                error.WriteLine($"{Name} needs the folder of further rulesets after it.");
                return null;
            }
            else
            {
                folder = args[i];
            }
        }

        if (rest.Find(argument => argument.StartsWith('-') && argument != "-") is { } unknown)
        {
            error.WriteLine($"\"{unknown}\" is not an option here; known is {Name}.");
            return null;
        }

        var faults = new List<RulesetFault>();
        var book = RulesetBook.Open(folder, faults);
        foreach (var fault in faults)
        {
            error.WriteLine(fault);
        }

        return book is null ? null : (book, rest);
    }
}
