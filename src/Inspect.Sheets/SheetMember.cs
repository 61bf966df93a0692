using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>One thing that a sheet can say, with all that the program needs to know of it. <see cref="Catalogue"/> lists them.</summary>
public sealed record SheetMember
{
    /// <summary>Its path, as text: <c>weights.gross</c>, <c>holes[].depth</c>. A list of readings has no brackets of its own.</summary>
    public required string Path { get; init; }

    /// <summary>The kind of its value.</summary>
    public required MemberKind Kind { get; init; }

    /// <summary>What an inspector calls it at the table.</summary>
    public required string Label { get; init; }

    /// <summary>Finds it on a sheet: every place where it can be, with its value or null.</summary>
    public required Func<Sheet, IEnumerable<Said>> On { get; init; }

    /// <summary>What a reading measures.</summary>
    public Quantity? Quantity { get; init; }

    /// <summary>The unit that a form assumes for a number without one.</summary>
    public Unit? Unit { get; init; }

    /// <summary>What a reading can believably be; null when nothing can be said.</summary>
    public UsualRange? Usual { get; init; }

    /// <summary>The words that it can have, in the order in which they are offered.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>The range of a count, both ends included.</summary>
    public (int Least, int Most) Range { get; init; }

    /// <summary>The most elements that a list can have; zero when it is not a list.</summary>
    public int Most { get; init; }

    /// <summary>Whether every sheet must have it.</summary>
    public bool IsRequired { get; init; }

    /// <summary>The names of its two sides, when the sign gives a side.</summary>
    public Sides? Sides { get; init; }

    /// <summary>The kinds of instruments that read it; the one made for it comes first. Empty when no instrument reads it.</summary>
    public IReadOnlyList<InstrumentKind> Instruments { get; init; } = [];

    /// <summary>Why a rule that needs it cannot be decided without it: half a sentence, such as <c>the ball was not weighed</c>.</summary>
    public string? Missing { get; init; }

    /// <summary>What the rules call it, when a rule can limit it.</summary>
    public RuleTerm? Rule { get; init; }

    /// <summary>Its name in the lines of a recorded sheet, when the path does not give it.</summary>
    public string? Line { get; init; }

    /// <summary>The names of a list's fields on the form; empty when it has one field, or none of its own.</summary>
    public IReadOnlyList<string> Fields { get; init; } = [];

    /// <summary>How many of its fields stand open on the form; the rest are folded until one of them is needed.</summary>
    public int Open { get; init; } = int.MaxValue;

    /// <summary>The answer that means "in order"; null when there is none.</summary>
    public string? Good { get; init; }

    /// <summary>Whether the form has a field for it. What the event sets or the station knows has no field.</summary>
    public bool IsTyped { get; init; } = true;

    /// <summary>How many of its fields Enter stops at when no rule asks for them.</summary>
    public int Stops { get; init; } = int.MaxValue;

    /// <summary>How many of its fields an inspector can leave out on purpose, with a reason.</summary>
    public int MayBeLeftOut { get; init; }

    /// <summary>Whether it is a list.</summary>
    public bool IsList => Most > 0;

    /// <summary>Whether an instrument reads it.</summary>
    public bool IsMeasured => Instruments.Count > 0;

    /// <summary>Whether it belongs to a hole or to a piece of one.</summary>
    public bool IsOfHole => Path.StartsWith("holes[]", StringComparison.Ordinal);

    /// <summary>Whether the form takes a second reading of it. A list does not need one: it has several fields.</summary>
    public bool CanBeReadTwice => MayBeLeftOut > 0 && !IsList;

    /// <summary>Whether the ball may be turned on the scale for a reading in a second position,
    /// which removes the scale's own error.</summary>
    public bool CanBeTurned => Sides is not null && IsMeasured;

    /// <summary>The last part of its path: <c>depth</c> of <c>holes[].depth</c>.</summary>
    public string Name => Path[(Path.LastIndexOf('.') + 1)..];

    /// <summary>The readings of it on a sheet, each with its path. Readings that were not taken are left out.</summary>
    public IEnumerable<(string Path, Reading Reading)> Readings(Sheet sheet) =>
        On(sheet).Where(said => said.Value is Reading).Select(said => (said.Path, (Reading)said.Value!));

    /// <summary>The name of the reading in one of its fields; the fields are counted from 0.</summary>
    public string LabelOf(int field) => field == 0 ? Label : Fields[field];

    /// <summary>The names of its fields on the form, when it is not in the rows of holes.</summary>
    public IEnumerable<string> FieldNames =>
        Fields.Count == 0 ? [Path] : Fields.Select((_, i) => FormattableString.Invariant($"{Path}[{i}]"));
}

/// <summary>One place of a sheet and its value.</summary>
/// <param name="Path">Such as <c>holes[0].depth</c>.</param>
/// <param name="Value">A <see cref="Reading"/>, a text or word, yes or no, a whole number, or a list of
/// words; null when nothing was entered.</param>
/// <param name="Hole">The number of the hole it belongs to, counted from 0.</param>
/// <param name="Piece">The number of the hole's piece it belongs to, counted from 0.</param>
public readonly record struct Said(string Path, object? Value, int? Hole = null, int? Piece = null);

/// <summary>The names of the two sides that a sign stands for.</summary>
/// <param name="Positive">The side of a reading above zero.</param>
/// <param name="Negative">The side of one below zero.</param>
/// <param name="IsNegativeFirst">Whether people name the negative side first, as in "left or right".</param>
public sealed record Sides(string Positive, string Negative, bool IsNegativeFirst = false)
{
    /// <summary>Both, in the order in which people say them and forms offer them.</summary>
    public IReadOnlyList<string> InOrder => IsNegativeFirst ? [Negative, Positive] : [Positive, Negative];

    /// <summary>The heavier side of a difference, and the lighter one.</summary>
    public (string Heavier, string Lighter) By(decimal value) => value >= 0 ? (Positive, Negative) : (Negative, Positive);

    /// <summary>A reading with the name of its side instead of a sign, as in <c>1/4 oz thumb</c>.</summary>
    public string Say(Reading reading) => reading.Value == 0 ? reading.Text : $"{Unsigned(reading.Text)} {By(reading.Value).Heavier}";

    /// <summary>The text of a reading without its sign.</summary>
    public static string Unsigned(string text) => text.TrimStart('-', '\u2212', '+');
}

/// <summary>What the rules call a quantity, and what an event states about it.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Word">Its word in rulesets and in an event's terms.</param>
/// <param name="Title">Its name as a heading.</param>
/// <param name="InRule">Its name in a sentence about a rule, as in <c>weight of the ball</c>.</param>
/// <param name="PartUnit">The unit of the parts of its uncertainty, and of a limit entered from a document.</param>
/// <param name="Group">The readings whose uncertainty an event states together, as in
/// <c>imbalances</c>; null when it states none.</param>
public sealed record RuleTerm(RuleQuantity Quantity, string Word, string Title, string InRule, Unit? PartUnit = null, string? Group = null);

/// <summary>The kinds of values on a sheet.</summary>
public enum MemberKind
{
    /// <summary>A value with its unit, as typed; several when <see cref="SheetMember.IsList"/>.</summary>
    Reading,

    /// <summary>Yes or no.</summary>
    Flag,

    /// <summary>A whole number.</summary>
    Count,

    /// <summary>A word from a closed list, or several.</summary>
    Word,

    /// <summary>Any text.</summary>
    Text,

    /// <summary>One day, as <c>2026-05-17</c>.</summary>
    Day,

    /// <summary>A year, a month or a day.</summary>
    Made,

    /// <summary>The two limits of a gauge that the ball passed.</summary>
    GaugeLimits,

    /// <summary>A list of objects, which have their own members.</summary>
    Objects,
}
