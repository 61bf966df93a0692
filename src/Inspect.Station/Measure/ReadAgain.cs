using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Sheets.Form;
using Inspect.Station.Judge;

namespace Inspect.Station.Measure;

/// <summary>Asks for a second reading where the first is near a limit, or far from that of the ball's earlier inspection.</summary>
/// <remarks>
/// Near is a convention of this station: within three standard uncertainties of the reading, as the event gives them, or within a tenth of
/// the limit, of the distance between two limits, or of a pound of gross weight, whichever is larger. It does not change the verdict, and a
/// ball can be recorded without a second reading. Where another reading fails clearly, a second one could not help, and none is asked for.
/// </remarks>
public static class ReadAgain
{
    private const double Tenth = 0.1;
    private const double TenthOfAPound = Tenth / 16;

    /// <summary>The fields to read again, each with the reason.</summary>
    public static IReadOnlyList<(string Field, string Why)> Asked(SentForm sent)
    {
        if (sent.Preview is not { } preview)
        {
            return [];
        }

        var isFailedAnyway = preview.Verdict.Findings.Any(finding => finding.Outcome == Outcome.Fail && !IsNear(finding));
        var near = preview.Verdict.Findings.Where(finding => !isFailedAnyway && IsNear(finding))
            .Select(finding => (sent.Typed.FieldOf(finding.Path!), $"{finding.Margin!.ToString().TrimStart('-')} from the limit"));
        var far = sent.Earlier is null
            ? []
            : sent.Hints.Where(hint => hint.Kind == HintKind.DiffersFromBefore)
            .Select(hint => (sent.Typed.FieldOf(hint.Path), "far from the earlier inspection"));
        return [.. near.Concat(far)
            .Where(asked => FormFields.CanRepeat(asked.Item1) && sent.Typed.Several.All(several => several.Field != asked.Item1))
            .DistinctBy(asked => asked.Item1)];
    }

    private static bool IsNear(Finding finding) =>
        finding is { Path: { } path, Margin: not null, Outcome: not Outcome.Hold } && MarginShare.Of(finding) is { } share
        && (finding.Conformance is not null
            || Math.Abs(1 - share.Used) <= (path == "weights.gross" ? TenthOfAPound : share.IsBetween ? 2 * Tenth : Tenth));
}
