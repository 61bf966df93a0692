using Inspect.Rules.Judging;

namespace Inspect.Station.Record;

/// <summary>Logs errors inside a rule. The verdict says only that the rule holds the ball.</summary>
internal static partial class RuleErrorLog
{
    /// <summary>A line for each error.</summary>
    public static void Write(ILogger log, IEnumerable<RuleError> errors)
    {
        foreach (var one in errors)
        {
            RuleFailed(log, one.Rule, one.Source, one.Error);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Rule {Rule} of {Source} failed, so it holds the ball")]
    private static partial void RuleFailed(ILogger log, string rule, string source, Exception error);
}
