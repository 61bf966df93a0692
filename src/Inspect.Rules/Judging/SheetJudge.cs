using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Judging;

/// <summary>Finds the edition that a sheet is to be judged under, and judges it.</summary>
public static class SheetJudge
{
    /// <summary>The verdict, or null with a fault added for each thing named on the sheet that is not known here.</summary>
    /// <param name="library">All known editions.</param>
    /// <param name="sheet">It names one edition, or an authority, whose edition in force on the day of play is then used.</param>
    /// <param name="faults">Where faults are collected, at <c>authority</c>, <c>edition</c> and <c>plan[i]</c>.</param>
    /// <param name="terms">What the event adds to the edition; absent means nothing.</param>
    public static Verdict? Judge(EditionLibrary library, Sheet sheet, List<Fault> faults, JudgingTerms? terms = null)
    {
        var before = faults.Count;
        for (var i = 0; i < sheet.Plan?.Count; i++)
        {
            if (!library.RuleIds.Contains(sheet.Plan[i]) && terms?.Supplements.Any(own => own.RuleIds.Contains(sheet.Plan[i])) != true)
            {
                faults.Add(new Fault(
                    FormattableString.Invariant($"plan[{i}]"),
                    $"{StrictJson.Quoted(sheet.Plan[i])} is not a rule of any edition known here."));
            }
        }

        if (sheet.Edition is { } id)
        {
            if (!library.TryFind(id, out var named))
            {
                faults.Add(new Fault(
                    "edition",
                    $"{StrictJson.Quoted(id)} is not an edition known here; write one such as \"{library.All.LastOrDefault()?.Id}\"."));
                return null;
            }

            return faults.Count == before ? Judging.Judge.Under(named, sheet, terms) : null;
        }

        var authority = sheet.Authority ?? "";
        if (library.Of(authority).Count == 0)
        {
            faults.Add(new Fault(
                "authority", $"{StrictJson.Quoted(authority)} is not a body known here; write {StrictObject.OneOf(library.Authorities)}."));
            return null;
        }

        return faults.Count > before ? null
            : library.InForceOn(authority, sheet.Play) is { } inForce ? Judging.Judge.Under(inForce, sheet, terms)
            : Judging.Judge.WithoutEdition();
    }
}
