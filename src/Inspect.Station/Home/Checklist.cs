using System.Security.Cryptography;
using Dapper;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Instruments;
using Inspect.Station.ModelLists;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Storage;
using Inspect.Station.Terms;
using Inspect.Station.Web;

namespace Inspect.Station.Home;

/// <summary>One thing to do before the doors open.</summary>
/// <param name="Title">What it is about.</param>
/// <param name="IsDone">Whether nothing is left to do.</param>
/// <param name="Says">What is missing, or what is there.</param>
/// <param name="Href">Where it is done.</param>
public sealed record ToDo(string Title, bool IsDone, string Says, string Href)
{
    /// <summary>Whether it would spoil the whole event, so that it is said wherever a director begins.</summary>
    public bool IsLoud { get; init; }
}

/// <summary>What is still to do before the doors of an event open, each with the place where it is done.</summary>
public sealed class Checklist(
    Database database, EditionLibrary editions, SignIns signIns, PublicAddress address, CodeTest codes, BowlerQueue queue,
    EventLists lists, StationOptions options)
{
    /// <summary>What concerns the whole station: the address in the codes, and how passcodes travel.</summary>
    public IReadOnlyList<ToDo> OfStation() => [Codes(), Passcodes()];

    /// <summary>Everything, in the order in which a director does it.</summary>
    /// <param name="held">The event.</param>
    /// <param name="entries">How many bowlers are entered.</param>
    /// <param name="now">The time.</param>
    public IReadOnlyList<ToDo> Of(Event held, int entries, DateTimeOffset now) =>
    [
        Rules(held),
        new("Squads", held.Squads.Count > 0, held.Squads.Count switch
        {
            0 => "There is none. That is right only where all bowl at once.",
            1 => "There is 1 squad.",
            var many => $"There are {many} squads.",
        }, $"/events/{held.Id}/change"),
        new("Entries", entries > 0, entries switch
        {
            0 => "Nobody is entered yet.",
            1 => "1 bowler is entered.",
            _ => FormattableString.Invariant($"{entries} bowlers are entered."),
        }, $"/events/{held.Id}/entries/add"),
        List(held),
        Officials(held),
        InstrumentsChecked(held, now),
        Tables(held),
        new("Names", held.NamesDue is not null,
            NamesKept.Sentence(held, held.DayAt(now), null), $"/events/{held.Id}/change#namesKeptDays"),
        .. OfStation(),
    ];

    /// <summary>What is to become of the names of an event that is over; null until then.</summary>
    public string? OfNames(Event held, DateTimeOffset now)
    {
        using var connection = database.OpenForReading();
        return held.To >= held.DayAt(now) ? null
            : NamesKept.Sentence(held, held.DayAt(now), EventChanges.LastStrike(connection, null, held.Id)?.At)
                + GuardianContacts.Left(connection, held.Id);
    }

    /// <summary>Whether the doors are open: a ball of the event was recorded.</summary>
    public bool HasBegun(Event held)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<long>(
            "SELECT EXISTS (SELECT 1 FROM inspection_index WHERE event = @Id)", new { held.Id }) == 1;
    }

    private ToDo Rules(Event held)
    {
        var missing = EventRules.Missing(held, editions);
        var open = missing.Count > 0 ? 0 : EventRulesPages.ToConfirm(held, editions, database).Count;
        return new ToDo("Rules", missing.Count + open == 0, missing.Count > 0 ? string.Join(' ', missing)
            : open == 0 ? "They are in force on every day of play, and nothing in them is left to confirm."
            : $"{(open == 1 ? "1 limit is" : $"{open} limits are")} not yet confirmed from the rule book: until then a ball is held there.",
            $"/events/{held.Id}/rules");
    }

    // An event whose rules do not ask for listed models needs none.
    private ToDo List(Event held)
    {
        var read = lists.Of(held.Id).FirstOrDefault(list => list.IsApproved);
        var isAsked = EventRules.InForce(held, editions).SelectMany(edition => edition.Rules.OfType<Rule.Listed>())
            .Any(rule => held.Plan?.Contains(rule.Id) ?? true);
        return new ToDo("List of approved balls", read is not null || !isAsked, read is { List.Newest: { } newest }
            ? $"\"{read.List.Name}\" is read, newest of {EventWords.Day(newest.Day)}."
            : isAsked ? "None is read: each inspector looks models up elsewhere and answers by hand."
            : "None is read, and the rules do not ask for one.", $"/events/{held.Id}/lists");
    }

    private ToDo Officials(Event held)
    {
        var all = signIns.All().Where(one => !one.IsDisabled).ToList();
        var isDone = held.HasSingleOfficial || (all.Exists(one => one.Role == Role.Director) && all.Count > 1);
        return new ToDo("Officials", isDone, isDone
            ? $"{(all.Count == 1 ? "1 person" : $"{all.Count} people")} can sign in."
            : "Only you can sign in, and nobody may rule on what they measured. Add somebody, or let one person do both.",
            isDone || all.Count > 1 ? "/people" : $"/events/{held.Id}/change#officials");
    }

    private ToDo Tables(Event held)
    {
        var open = queue.Of(held).Tables;
        return new ToDo("Tables", open.Count > 0, open.Count == 0 ? "No table is open. Each inspector opens one on the day."
            : $"Open: {string.Join(", ", open.Select(table => table.Name))}.", $"/events/{held.Id}/queue");
    }

    private ToDo InstrumentsChecked(Event held, DateTimeOffset now)
    {
        using var connection = database.OpenForReading();
        var rule = CheckRule.Of(connection, held.Id);
        var all = InstrumentStanding.All(connection)
            .Where(one => !one.Instrument.IsRetired && InstrumentKinds.Measures(one.Instrument.Kind)).ToList();
        var due = all.Where(one => one.Refusal(held.DayAt(now)) is not null || !one.IsChecked(held, rule, now))
            .Select(one => one.Instrument.Name).ToList();
        return new ToDo("Instruments", all.Count > 0 && due.Count == 0, all.Count == 0
            ? "None is known here: readings will name no instrument, and a failed check calls no ball back."
            : due.Count == 0 ? $"All {all.Count} are checked." : $"To check before they count: {string.Join(", ", due)}.", "/instruments");
    }

    private ToDo Codes() => address.IsOnlyForThisMachine
        ? new ToDo(
            "Address in the codes", false,
            $"The codes on slips lead to {address.Root}, which no phone can open. Start the station with --public-url and its address in the "
            + "hall's network.", "/codes")
        {
            IsLoud = true,
        }
        : new ToDo(
            "Address in the codes", codes.IsOpened,
            codes.IsOpened ? $"A phone has opened {address.Root}."
                : $"The codes on slips lead to {address.Root}. Test one with your phone.", "/codes");

    private ToDo Passcodes()
    {
        var isProtected = address.Root.StartsWith("https:", StringComparison.Ordinal)
            || options.Urls.Split(';').All(url => url.StartsWith("https:", StringComparison.Ordinal)
                || (Uri.TryCreate(url, UriKind.Absolute, out var uri) && uri.IsLoopback));
        return new ToDo(
            "Passcodes", isProtected,
            isProtected ? "They leave this machine only under HTTPS, or not at all."
                : "They travel over plain HTTP, where anyone in the hall's network can read them. Put HTTPS in front of the station.",
            "/codes#passcodes")
        {
            IsLoud = !isProtected,
        };
    }
}

/// <summary>Whether somebody's phone has opened a code of this station since it started.</summary>
public sealed class CodeTest
{
    private volatile bool _isOpened;

    /// <summary>The word in the address of the code that is tried.</summary>
    public string Word { get; } = RandomNumberGenerator.GetString("23456789ABCDEFGHJKMNPQRSTUVWXYZ", 10);

    /// <summary>Whether it was opened.</summary>
    public bool IsOpened => _isOpened;

    /// <summary>Notes that an address was opened. Returns whether it is the one that is tried.</summary>
    public bool Open(string word)
    {
        var isRight = word == Word;
        _isOpened |= isRight;
        return isRight;
    }
}
