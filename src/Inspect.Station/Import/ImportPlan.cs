using System.Security.Cryptography;
using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>A row of a list as an entry.</summary>
/// <param name="Row">The number of the row.</param>
/// <param name="Number">The entry's number; null where the next free one is to be given.</param>
/// <param name="Bowler">The name.</param>
/// <param name="Squad">The squad, or null.</param>
public sealed record ImportRow(int Row, string? Number, string Bowler, string? Squad)
{
    /// <summary>Whether the bowler is under age; null where the list does not say.</summary>
    public bool? IsUnderAge { get; init; }

    /// <summary>The name as pages show it.</summary>
    public string Shown => IsUnderAge == true ? $"{Bowler} (under age)" : Bowler;
}

/// <summary>A row that is entered.</summary>
/// <param name="Row">The row, with its number.</param>
/// <param name="IsNumberedHere">Whether the list gives no number, and the station does.</param>
public sealed record AddedRow(ImportRow Row, bool IsNumberedHere);

/// <summary>A row that differs from the entry with its number.</summary>
/// <param name="Row">The row.</param>
/// <param name="There">The entry as it is.</param>
public sealed record ChangedRow(ImportRow Row, Entry There)
{
    /// <summary>The new name; null when it stays.</summary>
    public string? Name => There.Bowler is null || Row.Bowler == There.Bowler ? null : Row.Bowler;

    /// <summary>The new squad; null when it stays.</summary>
    public string? Squad => Row.Squad == There.Squad ? null : Row.Squad;

    /// <summary>Whether the bowler is under age from now on; null when that stays.</summary>
    public bool? UnderAge => Row.IsUnderAge == There.IsUnderAge ? null : Row.IsUnderAge;
}

/// <summary>What is not clear about a row.</summary>
public enum Doubt
{
    /// <summary>The name may say that the place is free.</summary>
    Free,

    /// <summary>Its number is in an earlier row.</summary>
    Twice,

    /// <summary>A spreadsheet may have taken the zeros off its number.</summary>
    Zeros,

    /// <summary>The event has an entry of this name under another number.</summary>
    Entered,

    /// <summary>Its name is in an earlier row.</summary>
    SameName,

    /// <summary>Somebody of this name was entered in another event.</summary>
    Known,
}

/// <summary>A row about which a person decides.</summary>
/// <param name="Row">The row.</param>
/// <param name="Doubt">What is not clear.</param>
/// <param name="Why">The same in a sentence.</param>
/// <param name="Options">What can be chosen for it, besides leaving it out: the value in the form, and its words.</param>
/// <param name="Before">What is chosen beforehand; empty when it is left out.</param>
/// <param name="Padded">Its number with the zeros that it may have lost.</param>
/// <param name="Same">The bowler of the entry that has this name.</param>
public sealed record DoubtfulRow(
    ImportRow Row,
    Doubt Doubt,
    string Why,
    IReadOnlyList<(string Value, string Words)> Options,
    string Before = "",
    string? Padded = null,
    PersonId? Same = null)
{
    /// <summary>The form field of the choice.</summary>
    public string Field => $"row.{Row.Row}";
}

/// <summary>Rows that cannot be entered, all for the same reason.</summary>
/// <param name="Sentence">What is wrong and what would be right, with the rows.</param>
/// <param name="IsOfSquads">Whether it is because the event lacks a squad.</param>
public sealed record Refusal(string Sentence, bool IsOfSquads);

/// <summary>What a list would do to an event: every row is added, changed, left as it is, doubtful or refused.</summary>
/// <param name="There">The entries from which this was worked out.</param>
/// <param name="Added">The rows that are entered.</param>
/// <param name="Changed">The rows that differ from an entry.</param>
/// <param name="Left">How many rows are entered already, just so.</param>
/// <param name="Doubtful">The rows about which a person decides.</param>
/// <param name="Refused">The rows that cannot be entered, alike ones together.</param>
/// <param name="RefusedRows">How many rows those are.</param>
/// <param name="Meant">The people of other events who are meant by a name, where only one can be.</param>
public sealed record ImportPlan(
    IReadOnlyList<Entry> There,
    IReadOnlyList<AddedRow> Added,
    IReadOnlyList<ChangedRow> Changed,
    int Left,
    IReadOnlyList<DoubtfulRow> Doubtful,
    IReadOnlyList<Refusal> Refused,
    int RefusedRows,
    IReadOnlyDictionary<string, PersonId> Meant)
{
    /// <summary>SHA-256 of what is added, changed and doubtful: a person chooses among what they saw.</summary>
    public string Seen()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var row in Added)
        {
            Add('a', row.Row, "");
        }

        foreach (var row in Changed)
        {
            Add('c', row.Row, $"{row.There.Bowler}\u001F{row.There.Squad}\u001F{row.There.IsUnderAge}");
        }

        foreach (var row in Doubtful)
        {
            Add('d', row.Row, $"{row.Doubt}\u001F{string.Join('\u001F', row.Options.Select(option => option.Value))}");
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());

        void Add(char kind, ImportRow row, string more) => hash.AppendData(Encoding.UTF8.GetBytes(
            $"{kind}\u001F{row.Row}\u001F{row.Number}\u001F{row.Bowler}\u001F{row.Squad}\u001F{row.IsUnderAge}\u001F{more}\u001E"));
    }
}
