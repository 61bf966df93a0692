using System.Data.Common;

namespace Inspect.Station.Desk;

/// <summary>A filter of the search: one row of <see cref="FindFilters"/>, with everything that is known of it.</summary>
/// <param name="Name">Its name in a query, and the name of its value in statements.</param>
/// <param name="Says">What it is, for programs.</param>
/// <param name="Read">Checks what was typed and makes the value of it that statements compare with.</param>
internal sealed record FindFilter(string Name, string Says, Func<FindReader, FindAsked, string, FindValue> Read)
{
    /// <summary>Its label on the form; null where the form has no field of its own for it.</summary>
    public string? Label { get; init; }

    /// <summary>What it is called in the line that says which filters are set.</summary>
    public string Named { get => field ?? (Label ?? Name).ToLowerInvariant(); init; }

    /// <summary>The kind of its field.</summary>
    public string Type { get; init; } = "text";

    /// <summary>How to answer, where that is not plain.</summary>
    public Func<FindAsked, string>? Hint { get; init; }

    /// <summary>What it can be set to, where the form has a list.</summary>
    public Func<DeskChoices, IEnumerable<FindChoice>>? Choices { get; init; }

    /// <summary>The words for none of them.</summary>
    public string Any { get; init; } = "any";

    /// <summary>The words of a choice that is offered for a typed text; null where none is offered.</summary>
    public Func<FindChoice, string>? Offer { get; init; }

    /// <summary>Finds the inspections that a text means, where it is not a condition; null when they are too many.</summary>
    public Func<DbConnection, string, string?, Sought?>? Seek { get; init; }

    /// <summary>What an inspection must fit for a value, and what may lead to it.</summary>
    public Func<object, FindSql> Sql { get; init; } = _ => new([]);

    /// <summary>The column of days that the value is an end of, as its first ten characters.</summary>
    public FindDays? Days { get; init; }
}

/// <summary>What a filter says in statements.</summary>
/// <param name="Conditions">What an inspection must fit.</param>
/// <param name="Leads">Ways to go through the rows; the first counts whose columns are all asked for.</param>
internal sealed record FindSql(FindCondition[] Conditions, params FindLead[] Leads);

/// <summary>One choice of a list.</summary>
/// <param name="Value">What stands in the query.</param>
/// <param name="Words">Its words.</param>
/// <param name="Said">What else people type for it.</param>
/// <param name="Listed">Its words in the list, where they are more.</param>
internal sealed record FindChoice(string Value, string Words, string Said = "", string? Listed = null);

/// <summary>What reading made of a typed text: a value, or what is wrong with it.</summary>
internal readonly record struct FindValue(object? Value, string? Fault)
{
    public static FindValue Of(object value) => new(value, null);

    public static FindValue No(string fault) => new(null, fault);
}

/// <summary>A filter that is set.</summary>
internal sealed record FindTerm(FindFilter Filter, object Value);

/// <summary>A table that inspections are found by.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Alias">What statements call it.</param>
/// <param name="Seq">Its column with the inspection's entry of the register.</param>
/// <param name="BySeq">The index to look an inspection up in it by, where the planner is told.</param>
/// <param name="Also">The columns of inspection_index that it repeats.</param>
internal sealed record FindTable(string Name, string Alias, string Seq, string? BySeq, params (string Column, string Here)[] Also)
{
    /// <summary>The inspection's entry, in a statement.</summary>
    public string Entry => $"{Alias}.{Seq}";

    /// <summary>The table behind FROM or a join.</summary>
    /// <param name="hint">What the engine is told about its indexes.</param>
    public string From(string? hint) => hint is null ? $"{Name} {Alias}" : $"{Name} {Alias} {hint}";
}

/// <summary>What an inspection must fit: a row of a table with its entry, whose column passes a test.</summary>
/// <param name="Table">The table.</param>
/// <param name="Column">The column.</param>
/// <param name="Test">The test, to stand behind the column.</param>
/// <param name="IsNone">Whether there must be no such row.</param>
internal sealed record FindCondition(FindTable Table, string Column, string Test, bool IsNone = false)
{
    /// <summary>The condition in a statement that has the table, or another one that repeats the column; null where neither.</summary>
    public string? In(FindTable table) => ColumnIn(table) is { } column ? $"{table.Alias}.{column} {Test}" : null;

    /// <summary>The name of the column in a table; null where it has none of it.</summary>
    public string? ColumnIn(FindTable table) => IsNone ? null
        : Table == table ? Column
        : Table == FindFilters.Inspections ? Array.Find(table.Also, also => also.Column == Column).Here
        : null;
}

/// <summary>One way to go through the rows, newest first.</summary>
/// <param name="Table">The table.</param>
/// <param name="Hint">Which of its indexes.</param>
/// <param name="Begins">The columns that the index begins with; each must be asked for.</param>
/// <param name="Turn">Which of two leads when they fit as many: the lower.</param>
/// <param name="IsNarrow">Whether it fits few rows by its nature, so that nothing need be counted.</param>
internal sealed record FindLead(FindTable Table, string? Hint, string[] Begins, int Turn, bool IsNarrow = false);

/// <summary>Where a value limits the days that are looked at.</summary>
/// <param name="Column">The column, or the part of it, that an index knows the days of.</param>
/// <param name="IsLast">Whether the value is the last day, or else the first.</param>
internal sealed record FindDays(string Column, bool IsLast);
