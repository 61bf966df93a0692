using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Measure;

/// <summary>An unfinished sheet for the list.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Bowler">The bowler's name, or null once struck.</param>
/// <param name="By">Who typed last.</param>
public sealed record UnfinishedRow(UnfinishedSheet Sheet, string? Bowler, string? By);

/// <summary>Unfinished sheets with the names of their people.</summary>
public sealed class UnfinishedRows(UnfinishedSheets sheets, Events events, People people)
{
    /// <summary>Those of an event.</summary>
    public List<UnfinishedRow> OfEvent(string eventId) => [.. sheets.OfEvent(eventId).Select(Row)];

    /// <summary>Those of one entry.</summary>
    public List<UnfinishedRow> OfEntry(string eventId, string entry) => [.. sheets.OfEntry(eventId, entry).Select(Row)];

    /// <summary>That of a form, or null.</summary>
    public UnfinishedRow? Find(string form) => sheets.Find(form) is { } sheet ? Row(sheet) : null;

    private UnfinishedRow Row(UnfinishedSheet sheet) =>
        new(sheet, events.FindEntry(sheet.Event, sheet.Entry)?.Bowler, people.NameOf(sheet.TouchedBy));
}
