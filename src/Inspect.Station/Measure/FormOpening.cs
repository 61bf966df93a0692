using System.Globalization;
using Inspect.Sheets.Form;
using Inspect.Station.Access;
using Inspect.Station.ModelLists;
using Inspect.Station.Prepare;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>What the address of a measuring form says it starts from.</summary>
/// <param name="Supersedes">The inspection it replaces.</param>
/// <param name="Ball">A ball judged before with another grip.</param>
/// <param name="Form">The key of a sheet that is taken up again.</param>
/// <param name="Entered">A ball of the entry's list.</param>
public sealed record FormStart(string? Supersedes, string? Ball, string? Form, string? Entered)
{
    /// <summary>The inspection and the ball as an address says them.</summary>
    internal QueryString Query => QueryString.Create(
        new Dictionary<string, string?> { ["supersedes"] = Supersedes, ["ball"] = Ball, ["entered"] = Entered }
            .Where(each => each.Value is not null));
}

/// <summary>A form as it is opened, with where its fields come from.</summary>
/// <param name="Form">The form.</param>
/// <param name="Revision">That of the unfinished sheet it takes up; null for none.</param>
/// <param name="TakenBack">The record that the same inspector took back and that this one stands for; null for none.</param>
/// <param name="IsRefilled">Whether what that inspector typed stands in it again.</param>
public sealed record OpenedForm(OpenForm Form, long? Revision, string? TakenBack, bool IsRefilled);

/// <summary>Opens a measuring form with what is known of the ball, what was typed before its record was taken back,
/// and what was kept unfinished.</summary>
public sealed class FormOpening(
    InspectionLookup lookup, EnteredBalls entered, EventLists lists, Remarks remarks, TimeProvider time)
{
    /// <summary>The form, or null with a sentence about what it cannot start from.</summary>
    public OpenedForm? Open(Event held, Entry entry, FormStart start, UnfinishedSheet? kept, PersonId viewer, out string? refusal)
    {
        var (supersedes, ball) = kept is null ? (start.Supersedes, start.Ball) : (kept.Supersedes, kept.Ball);
        var earlier = supersedes is not null && InspectionNumber.TryParse(supersedes, out var number) ? lookup.ByNumber(number) : null;
        var listed = kept is null && long.TryParse(start.Entered, NumberStyles.None, CultureInfo.InvariantCulture, out var id)
            ? entered.Find(held.Id, entry.Number, id) : null;
        ball ??= listed?.Ball.Known;
        var same = ball is null ? null : lookup.LatestOf(ball, entry.Person)?.Inspection;
        refusal = supersedes is not null
            && (earlier is null || earlier.Inspection.Event != held.Id
                || (earlier.Inspection.Entry != entry.Number && !IsWithdrawn(earlier)
                    && lookup.OfEntry(held.Id, entry.Number).All(row => row.Number != supersedes)))
            ? $"There is no inspection \"{supersedes}\" of this entry."
            : ball is not null && same is null ? "This bowler has no such ball."
            : kept is null && start.Entered is not null && listed is null
            ? $"There is no ball \"{start.Entered}\" on the list of entry {entry.Number}; it may have been taken off."
            : null;
        if (refusal is not null)
        {
            return null;
        }

        var before = earlier?.Inspection ?? same;
        // A record that was withdrawn may be of another bowler's ball.
        var lastBall = before is null && kept is null && listed is not { Ball.Hand: not null }
            && lookup.OfEntry(held.Id, entry.Number).FirstOrDefault(row => row.Stands) is { } last
            && InspectionNumber.TryParse(last.Number, out var lastNumber) ? lookup.ByNumber(lastNumber)?.Inspection : null;
        var known = KnownBall.Of(held, entry, before, isReplaced: earlier is not null, lastBall, time, lists.Of(held.Id).Count > 0);
        KnownBall.Add(known, listed?.Ball);
        if (before is { Tag: { } tag } && before.Event == held.Id)
        {
            known["tag"] = tag;
        }

        // Taken back just now, by who is here again: what was typed stands, so that only what was wrong is typed anew.
        var takenBack = IsTakenBackBy(earlier, viewer) ? earlier!.Inspection : null;
        if (takenBack?.MeasuredAt is { } onPaper)
        {
            PaperTime.Of(held, onPaper).ToList().ForEach(field => known[field.Key] = field.Value);
        }

        var fields = TypedFields.Of(known);
        var typedBefore =
            takenBack is null ? null : RecordedFields.Of(takenBack, hash => remarks.TextOf(takenBack.By.Person, hash));
        fields = typedBefore is null ? fields : fields.With(typedBefore.All);
        fields = kept is null ? fields : fields.With(kept.Fields.Select(field => KeyValuePair.Create(field.Key, field.Value.Values)));
        return new OpenedForm(
            new OpenForm(held, entry, start.Form ?? OpenForm.FreshKey(), supersedes, ball, fields), kept?.Revision,
            takenBack?.Number.ToString(), typedBefore is not null);
    }

    /// <summary>Whether somebody took a record back or withdrew it, and may record its readings anew, for another bowler too.</summary>
    internal static bool IsTakenBackBy(FoundInspection? found, PersonId viewer) =>
        found is { IsSuperseded: false } && IsWithdrawn(found) && found.Ruling!.By == viewer;

    internal static bool IsWithdrawn(FoundInspection found) => found.Ruling?.Decision.IsWithdrawal() == true;
}
