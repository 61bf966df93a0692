using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>How far a limit is widened for the spread between instruments, as in a hardness of at least 72 less 4.</summary>
internal static class Allowance
{
    /// <summary>The limit moved outwards by the member <c>allowance</c>, or as it was when there is none.</summary>
    public static Limit? Given(StrictObject members, Quantity quantity, Limit? limit)
    {
        if (!members.Has("allowance") || members.Reading("allowance", quantity) is not { } allowance)
        {
            return limit;
        }

        if (allowance.Value <= 0)
        {
            members.Refuse("allowance", $"\"{allowance.Text}\" does not move the limit; write how far it moves, or leave it out.");
        }
        else if (limit is null or { Least: not null, Most: not null })
        {
            members.Refuse("allowance", "An allowance goes with one end of a limit; write it with one of atLeast, over, atMost and under.");
        }

        return limit is null ? null : new Limit(
            limit.Least is { } least ? new Bound(least.Value - allowance.Value, least.Inclusive, Words(least, "less", allowance)) : null,
            limit.Most is { } most ? new Bound(most.Value + allowance.Value, most.Inclusive, Words(most, "plus", allowance)) : null);
    }

    private static string Words(Bound bound, string moved, Reading allowance) =>
        $"{bound.Text} {moved} {allowance.Text} for spread between instruments";
}
