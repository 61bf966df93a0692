using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;

namespace Inspect.Station.CommandLine;

/// <summary>What the verb <c>replay</c> is asked to do.</summary>
/// <param name="File">The exported register, or a file of sheets.</param>
/// <param name="Target">What the inspections are judged under.</param>
/// <param name="Csv">The file for the table of changes, where one is wanted.</param>
/// <param name="Bytes">Whether verdicts are compared byte for byte with those recorded, too.</param>
/// <param name="Others">The arguments left over, for the options about rulesets.</param>
internal sealed record ReplayOptions(string File, ReplayTarget Target, string? Csv, bool Bytes, IReadOnlyList<string> Others)
{
    /// <summary>How the verb is written.</summary>
    public const string Use = "Write it as: replay FILE [--edition ID | --authority NAME | --revised] [--supplement FILE] [--terms FILE]"
        + " [--decision simple|guarded-acceptance|guarded-rejection --factor 2] [--csv FILE] [--bytes] [--rulesets DIR]";

    private const string Revised = "--revised";

    private static readonly string[] Known = ["--edition", "--authority", "--supplement", "--terms", "--decision", "--factor", "--csv"];

    /// <summary>The options, or null with a sentence in <paramref name="faults"/>.</summary>
    public static ReplayOptions? Of(IReadOnlyList<string> args, List<string> faults)
    {
        var values = Known.ToDictionary(name => name, _ => new List<string>(), StringComparer.Ordinal);
        var (files, others, bytes, revised) = (new List<string>(), new List<string>(), false, false);
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] == Revised)
            {
                revised = true;
            }
            else if (args[i] == "--rulesets")
            {
                others.AddRange(args.Skip(i++).Take(2));
            }
            else if (args[i] == "--bytes")
            {
                bytes = true;
            }
            else if (!values.TryGetValue(args[i], out var given))
            {
                (args[i] is ['-', _, ..] ? others : files).Add(args[i]);
            }
            else if (++i < args.Count)
            {
                given.Add(args[i]);
            }
            else
            {
                faults.Add($"{args[i - 1]} needs a value after it. {Use}");
            }
        }

        if (files.Count != 1)
        {
            faults.Add($"replay needs one file. {Use}");
        }

        if (values.Any(option => option.Key != "--supplement" && option.Value.Count > 1)
            || values["--edition"].Count + values["--authority"].Count + (revised ? 1 : 0) > 1)
        {
            faults.Add($"An option is given twice, or more than one of --edition, --authority and {Revised} is given. {Use}");
        }

        var terms = Terms(values, faults);
        return faults.Count > 0 ? null
            : new ReplayOptions(files[0], TargetOf(values, revised) with { Terms = terms }, values["--csv"].FirstOrDefault(), bytes,
                others);
    }

    private static ReplayTarget TargetOf(Dictionary<string, List<string>> values, bool revised) =>
        values["--edition"].FirstOrDefault() is { } edition ? new ReplayTarget.OneEdition(edition)
        : values["--authority"].FirstOrDefault() is { } authority ? new ReplayTarget.EditionsOf(authority)
        : revised ? new ReplayTarget.Revised()
        : new ReplayTarget.OwnEdition();

    private static JudgingTerms Terms(Dictionary<string, List<string>> values, List<string> faults)
    {
        var supplements = values["--supplement"].Select(file => Read(file, SupplementLoader.Load, faults)).OfType<Supplement>().ToList();
        var terms = values["--terms"].Select(file => Read(file, (utf8, found) => TermsReader.Read(utf8, found), faults)).FirstOrDefault()
            ?? JudgingTerms.None;
        return terms with { Supplements = supplements, DecisionRule = Decision(values, terms, faults) };
    }

    /// <summary>The decision rule of the command line, else that of the terms.</summary>
    private static DecisionRule Decision(Dictionary<string, List<string>> values, JudgingTerms terms, List<string> faults)
    {
        var (word, factor) = (values["--decision"].FirstOrDefault(), values["--factor"].FirstOrDefault());
        if (word is null or "simple")
        {
            if (factor is not null)
            {
                faults.Add("--factor goes with a guarded decision; name one with --decision.");
            }

            return word is null ? terms.DecisionRule : DecisionRule.Simple;
        }

        if (terms.Uncertainties.Count == 0)
        {
            faults.Add("A guarded decision needs the uncertainties of the readings; give them with --terms.");
        }

        switch (word, TermsReader.Factor(factor ?? ""))
        {
            case ("guarded-acceptance", { } width):
                return DecisionRule.GuardedAcceptance(width);
            case ("guarded-rejection", { } width):
                return DecisionRule.GuardedRejection(width);
            default:
                faults.Add(
                    $"\"{word}\" with the factor \"{factor}\" is not a decision rule; name guarded-acceptance or guarded-rejection, "
                        + "and a factor above 0 and at most 10.");
                return DecisionRule.Simple;
        }
    }

    private static T? Read<T>(string file, Func<ReadOnlyMemory<byte>, List<Fault>, T?> read, List<string> faults)
        where T : class
    {
        try
        {
            var found = new List<Fault>();
            var document = read(System.IO.File.ReadAllBytes(file), found);
            faults.AddRange(found.Select(fault => $"{file}: {fault.Path}: {fault.Message}"));
            return document;
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            faults.Add($"\"{file}\" cannot be read: {unreadable.Message}");
            return null;
        }
    }
}
