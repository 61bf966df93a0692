using System.Security.Claims;
using Inspect.Advice;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Measure;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Recorded;

/// <summary>The changes since the inspection that a new measurement of the ball replaced.</summary>
/// <param name="Replaced">The number of the inspection that was replaced.</param>
/// <param name="Changes">The readings that differ; may be empty.</param>
/// <param name="WorkDone">What was done to the ball in between, in the inspector's words; null when nothing was recorded
/// or it was struck.</param>
/// <param name="IsWorkStruck">Whether such a text was struck.</param>
public sealed record SinceBefore(InspectionNumber Replaced, IReadOnlyList<SheetChange> Changes, string? WorkDone, bool IsWorkStruck);

/// <summary>Collects the data for the page of a recorded inspection.</summary>
public sealed class InspectionView(
    InspectionLookup lookup, Events events, People people, EditionLibrary editions, BowlerQueue queue, Photographs photographs,
    Remarks remarks, SlipPrints prints, EnteredBalls entered, SaidByBowler said, TimeProvider time)
{
    /// <summary>The page, or null when the event is no longer on the station.</summary>
    /// <param name="found">The inspection.</param>
    /// <param name="user">The person who looks at it.</param>
    /// <param name="faults">The faults of a form sent from the page.</param>
    /// <param name="reason">The reason for taking it back, as typed.</param>
    /// <param name="moveTo">The entry whose ball it is, as typed.</param>
    public RazorComponentResult<InspectionPage>? Page(
        FoundInspection found, ClaimsPrincipal user, Faults? faults = null, string? reason = null, string? moveTo = null)
    {
        var inspection = found.Inspection;
        if (events.Find(inspection.Event) is not { } held)
        {
            return null;
        }

        var history = lookup.OfBall(inspection.Ball);
        var (terms, gone) = lookup.TermsOf(inspection);
        return new RazorComponentResult<InspectionPage>(new
        {
            Found = found,
            Event = held,
            History = history,
            Bowler = people.NameOf(inspection.Bowler.Person),
            By = people.NameOf(inspection.By.Person),
            NameOf = (Func<string, string?>)(id => people.NameOf(PersonId.From(id))),
            ReasonOf = (Func<string, string?>)(hash => remarks.TextOf(inspection.By.Person, hash)),
            Edition = inspection.Verdict.Edition is { } mark && editions.TryFind(mark.Id, out var edition) ? edition : null,
            Terms = terms,
            RulesGone = gone,
            Earlier = Earlier(found, history),
            CanMove = FormOpening.IsTakenBackBy(found, SignedIn.From(user).Person),
            CanUndo = CanUndo(found, user),
            Listed = entered.ToInspect(held.Id, inspection.Entry, lookup.OfEntry(held.Id, inspection.Entry)).Count,
            Said = said.Of([inspection.Number.ToString()]),
            Queue = queue.Of(held),
            Viewer = SignedIn.From(user),
            Since = Since(inspection),
            Printed = prints.Of(found.Seq),
            Photographs = photographs.Of(inspection.Number.ToString()),
            LookAlike = lookup.LookAlikeOf(inspection),
            Faults = faults ?? new Faults(),
            Reason = reason,
            MoveTo = moveTo,
        })
        {
            StatusCode = faults is { AreNone: false } ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
        };
    }

    /// <summary>Whether this person may still take the inspection back.</summary>
    public bool CanUndo(FoundInspection found, ClaimsPrincipal user) =>
        Rulings.CanUndo(found, SignedIn.From(user).Person, time.GetUtcNow(), prints.IsPrinted(found.Seq));

    private SinceBefore? Since(Inspection inspection)
    {
        if (inspection.Supersedes is not { } replaced || lookup.ByNumber(replaced) is not { } before)
        {
            return null;
        }

        var work = inspection.WorkDoneHash is { } hash ? remarks.TextOf(inspection.By.Person, hash) : null;
        return new SinceBefore(
            replaced,
            SheetChanges.Between(before.Inspection.Sheet, inspection.Sheet, inspection.Terms),
            work,
            IsWorkStruck: inspection.WorkDoneHash is not null && work is null);
    }

    /// <summary>The changes since the previous inspection of the same ball.</summary>
    private EarlierInspection? Earlier(FoundInspection found, IReadOnlyList<InspectionRow> history) =>
        history.LastOrDefault(row => row.Seq < found.Seq) is { } row && InspectionNumber.TryParse(row.Number, out var number)
        && lookup.ByNumber(number) is { } before
            ? EarlierInspection.Before(before.Inspection.Sheet, found.Inspection.Sheet)
            : null;
}
