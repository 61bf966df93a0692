using Inspect.Sheets.Json;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>One bowler of an event as typed, to be entered or put right.</summary>
/// <param name="Number">The number; empty for the next free one.</param>
/// <param name="Name">The bowler's name.</param>
/// <param name="Squad">The squad's name; empty for none.</param>
public sealed record TypedBowler(string Number, string Name, string Squad)
{
    private const int LongestName = 200;

    /// <summary>Whether the bowler is under age.</summary>
    public bool IsUnderAge { get; init; }

    /// <summary>How a guardian is reached; empty for none.</summary>
    public string Guardian { get; init; } = "";

    /// <summary>The empty form.</summary>
    public static readonly TypedBowler None = new("", "", "");

    /// <summary>Reads the form; missing answers are empty.</summary>
    public static TypedBowler Of(IFormCollection form) => new(
        form["number"].ToString().Trim(), form["name"].ToString().Trim(), form["squad"].ToString())
    {
        IsUnderAge = form["underAge"] == "yes",
        Guardian = form["guardian"].ToString().Trim(),
    };

    /// <summary>The form of an entry as it is.</summary>
    public static TypedBowler Of(Entry entry, string guardian) => new(entry.Number, entry.Bowler ?? "", entry.Squad ?? "")
    {
        IsUnderAge = entry.IsUnderAge,
        Guardian = guardian,
    };

    /// <summary>The bowler, or null with everything that is wrong added.</summary>
    /// <param name="into">The event.</param>
    /// <param name="there">The entries that the event has.</param>
    /// <param name="faults">Where faults are added.</param>
    public NewEntry? Read(Event into, IReadOnlyList<Entry> there, Faults faults)
    {
        if (Number.Length > 0 && EntryNumbers.FaultOf(Number) is { } fault)
        {
            faults.Add("number", $"{fault} \"{Number}\"; give another one, or leave it empty for the next free one.");
        }
        else if (there.FirstOrDefault(entry => string.Equals(entry.Number, Number, StringComparison.OrdinalIgnoreCase)) is { } taken)
        {
            faults.Add("number", $"Entry \"{Number}\" is already in {into.Name}, for {taken.Bowler ?? "a bowler whose name was struck"}; "
                + "give another number, or leave it empty for the next free one.");
        }

        CheckName(faults);
        CheckGuardian(faults);
        CheckSquad(into, faults);
        return faults.AreNone ? new NewEntry(Number, Name, SquadOrNone) { IsUnderAge = IsUnderAge, Guardian = Guardian } : null;
    }

    /// <summary>Adds what is wrong with the name.</summary>
    public void CheckName(Faults faults)
    {
        if (Name.Length is 0 or > LongestName || !PlainText.IsLine(Name))
        {
            faults.Add("name", $"\"{Name}\" cannot be a bowler's name; give one of 1 to {LongestName} characters.");
        }
    }

    /// <summary>Adds what is wrong with the contact of a guardian.</summary>
    public void CheckGuardian(Faults faults)
    {
        if (Guardian.Length > LongestName || !PlainText.IsLine(Guardian))
        {
            faults.Add("guardian", $"\"{Guardian}\" cannot be a contact; give at most {LongestName} characters.");
        }
        else if (Guardian.Length > 0 && !IsUnderAge)
        {
            faults.Add(
                "guardian", "A guardian's contact is kept only for a bowler who is under age; tick that, or leave the contact empty.");
        }
    }

    /// <summary>Adds what is wrong with the squad.</summary>
    public void CheckSquad(Event into, Faults faults)
    {
        if (SquadOrNone is { } squad && into.Squads.All(each => each.Name != squad))
        {
            faults.Add("squad", $"There is no squad \"{squad}\" in {into.Name}; choose one from the list.");
        }
    }

    /// <summary>The squad, or null for none.</summary>
    public string? SquadOrNone => Squad.Length == 0 ? null : Squad;
}
