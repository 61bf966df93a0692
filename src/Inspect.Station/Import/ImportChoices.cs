using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>What a person chose of a plan, as what is written.</summary>
/// <param name="Entries">The bowlers who are entered.</param>
/// <param name="Changes">The entries that are changed.</param>
/// <param name="Before">How many entries there were.</param>
public sealed record ImportChoices(IReadOnlyList<NewEntry> Entries, IReadOnlyList<ChangedRow> Changes, int Before)
{
    /// <summary>The form field that takes every changed row.</summary>
    public const string AllChanged = "changed.all";

    /// <summary>The most entries that a list changes at a time: all of them are changed in one turn at the gate.</summary>
    public const int MostChanged = 500;

    /// <summary>The value that leaves a row out for every row with the same doubt.</summary>
    public const string Leave = "leave";

    /// <summary>The form field that takes a changed row.</summary>
    public static string Field(ChangedRow row) => $"changed.{row.Row.Row}";

    /// <summary>The form field that decides every row with the same doubt.</summary>
    public static string Field(Doubt doubt) => $"all.{doubt}";

    /// <summary>Reads a form that was made of the plan. A row that the form does not show is done as was chosen beforehand.</summary>
    public static ImportChoices Of(ImportPlan plan, IFormCollection form)
    {
        var numbers = new EntryNumbers(
            plan.There.Select(entry => entry.Number).Concat(plan.Added.Select(row => row.Row.Number!)),
            plan.Doubtful.Where(row => row.Row.Number is not null).Select(row => row.Row.Number!));
        var entries = plan.Added.Select(row => Entered(row.Row, row.Row.Number!, null)).ToList();
        foreach (var row in plan.Doubtful)
        {
            if (Entry(row, Chosen(row, form), plan, numbers) is { } entry)
            {
                entries.Add(entry);
            }
        }

        // Ids that follow each other stand beside each other in the store: a turn at the gate changes a few pages and not a thousand.
        var ids = entries.Select(entry => entry.New).OrderBy(id => id.ToString(), StringComparer.Ordinal).ToList();
        entries = [.. entries.Select((entry, at) => entry with { New = ids[at] })];
        var takesAll = form.ContainsKey(AllChanged);
        return new ImportChoices(
            entries, [.. plan.Changed.Where(row => takesAll || form.ContainsKey(Field(row))).Take(MostChanged)], plan.There.Count);
    }

    private static string Chosen(DoubtfulRow row, IFormCollection form)
    {
        var chosen = form[Field(row.Doubt)] is [{ Length: > 0 } all] ? all
            : form.TryGetValue(row.Field, out var one) ? one.ToString() : row.Before;
        return row.Options.Any(option => option.Value == chosen) ? chosen : "";
    }

    private static NewEntry? Entry(DoubtfulRow doubtful, string chosen, ImportPlan plan, EntryNumbers numbers)
    {
        if (chosen.Length == 0)
        {
            return null;
        }

        var row = doubtful.Row;
        var number = chosen switch
        {
            "zeros" => doubtful.Padded,
            "next" => null,
            _ => row.Number,
        };
        PersonId? known = doubtful.Doubt switch
        {
            Doubt.Known => chosen == "new" ? null : PersonId.From(chosen),
            Doubt.Entered => chosen == "same" ? doubtful.Same : null,
            _ => plan.Meant.TryGetValue(row.Bowler, out var meant) ? meant : null,
        };
        return Entered(row, number ?? numbers.Next(), known);
    }

    private static NewEntry Entered(ImportRow row, string number, PersonId? known) =>
        new(number, row.Bowler, row.Squad, known) { IsUnderAge = row.IsUnderAge == true };
}
