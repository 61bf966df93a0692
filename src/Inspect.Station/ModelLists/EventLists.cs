using System.Data.Common;
using Dapper;
using Inspect.Sheets;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.ModelLists;

/// <summary>A list of models that an event reads.</summary>
/// <param name="List">The list.</param>
/// <param name="IsApproved">Whether it answers whether a model is listed; otherwise what it says is shown and decides nothing.</param>
/// <param name="IsAsOnStart">Whether it is read as on the event's first day; otherwise as on the day of play.</param>
public sealed record EventList(ModelList List, bool IsApproved, bool IsAsOnStart)
{
    /// <summary>The day as on which it is read.</summary>
    public DateOnly DayFor(Event held, DateOnly play) => IsAsOnStart ? held.From : play;
}

/// <summary>Which lists of models an event reads, and what they say of a ball.</summary>
public sealed class EventLists(Database database)
{
    /// <summary>The lists of an event, the one of approved balls first.</summary>
    public IReadOnlyList<EventList> Of(string eventId)
    {
        using var connection = database.OpenForReading();
        return Of(connection, null, eventId);
    }

    /// <summary>The short names of the events that read a list.</summary>
    public IReadOnlyList<string> Reading(long list)
    {
        using var connection = database.OpenForReading();
        return connection.Query<string>("SELECT event FROM event_list WHERE list = @list ORDER BY event", new { list }).AsList();
    }

    /// <summary>What the event's lists say of the ball of a sheet; null when it reads none, or maker and model are not known.</summary>
    public static ListAnswers? Answer(DbConnection connection, DbTransaction? transaction, Event held, Sheet sheet)
    {
        if (sheet.Ball is not { Maker: { Length: > 0 } maker, Model: { Length: > 0 } model })
        {
            return null;
        }

        var read = new List<ListAnswer>();
        foreach (var list in Of(connection, transaction, held.Id))
        {
            var day = list.DayFor(held, sheet.Play);
            if (list.List.AsOf(day) is not { } version)
            {
                continue;
            }

            var rows = ListedModels.RowsOf(connection, transaction, version, maker, model);
            read.Add(new ListAnswer(list, version, day, $"{model} of {maker}", rows)
            {
                Near = rows.Count > 0 || !list.IsApproved ? [] : ListedModels.Near(connection, transaction, version, maker, model),
            });
        }

        return read.Count == 0 ? null : ListAnswers.Of(read, sheet.Weights?.Gross?.Value);
    }

    /// <summary>Sets which lists an event reads, in place of those before, and keeps what was changed.</summary>
    public static void Set(WriteTransaction write, string eventId, IReadOnlyList<EventList> lists, ChangedBy by)
    {
        var (was, became) = (Words(Of(write.Connection, write.Transaction, eventId)), Words(lists));
        if (was == became)
        {
            return;
        }

        write.Connection.Execute("DELETE FROM event_list WHERE event = @eventId", new { eventId }, write.Transaction);
        write.Connection.Execute(
            "INSERT INTO event_list (event, list, use, day) VALUES (@eventId, @Id, @use, @day)",
            lists.Select(list => new
            {
                eventId,
                list.List.Id,
                use = list.IsApproved ? "approved" : "shown",
                day = list.IsAsOnStart ? "start" : "play",
            }),
            write.Transaction);
        EventChanges.Keep(write, new Change(eventId, null, "lists of models", was, became), by);
    }

    private static IReadOnlyList<EventList> Of(DbConnection connection, DbTransaction? transaction, string eventId)
    {
        var chosen = connection.Query<(long List, string Use, string Day)>(
            "SELECT list, use, day FROM event_list WHERE event = @eventId", new { eventId }, transaction).AsList();
        if (chosen.Count == 0)
        {
            return [];
        }

        var all = ListedModels.All(connection, transaction).ToDictionary(list => list.Id);
        return
        [
            .. chosen.Select(row => new EventList(all[row.List], row.Use == "approved", row.Day == "start"))
                .OrderByDescending(list => list.IsApproved).ThenBy(list => list.List.Name, StringComparer.Ordinal),
        ];
    }

    private static string Words(IReadOnlyList<EventList> lists) => lists.Count == 0 ? "none" : string.Join("; ", lists.Select(list =>
        $"{list.List.Name} {(list.IsApproved ? "says what is approved" : "is shown")}, "
        + $"as on {(list.IsAsOnStart ? "the first day" : "the day of play")}"));
}
