using Inspect.Rules.Judging;

namespace Inspect.Station.CommandLine;

/// <summary>Prints errors inside rules, the first of each rule and cause. A verdict says only that the rule holds the ball.</summary>
internal sealed class RuleErrorLines(TextWriter error)
{
    private readonly List<RuleError> _printed = [];

    /// <summary>Prints those that are new.</summary>
    public void Add(IEnumerable<RuleError> errors)
    {
        foreach (var one in errors)
        {
            if (!_printed.Exists(one.IsLike))
            {
                _printed.Add(one);
                error.WriteLine($"Rule {one.Rule} of {one.Source} failed, so it holds the ball: {one.Error}");
            }
        }
    }
}
