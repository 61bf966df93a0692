using System.Data.Common;

namespace Inspect.Station.Desk;

/// <summary>A filter of the search: one row of <see cref="FindFilters"/>.</summary>
/// <param name="Name">Its name in a query, and the name of its parameter in SQL.</param>
/// <param name="Says">Its description, for programs.</param>
/// <param name="Read">Checks what was typed and turns it into the value to compare with.</param>
internal sealed record FindFilter(string Name, string Says, Func<FindReader, FindAsked, string, FindValue> Read)
{
    /// <summary>Its label on the form; null when the form has no field for it.</summary>
    public string? Label { get; init; }

    /// <summary>Its name in the line that lists the filters set.</summary>
    public string Named { get => field ?? (Label ?? Name).ToLowerInvariant(); init; }

    /// <summary>The kind of its field.</summary>
    public string Type { get; init; } = "text";

    /// <summary>How to fill it in, where that is not obvious.</summary>
    public Func<FindAsked, string>? Hint { get; init; }

    /// <summary>The choices, where the form has a list.</summary>
    public Func<DeskChoices, IEnumerable<FindChoice>>? Choices { get; init; }

    /// <summary>The words for no choice.</summary>
    public string Any { get; init; } = "any";

    /// <summary>The words that offer a choice for a typed text; null when none is offered.</summary>
    public Func<FindChoice, string>? Offer { get; init; }

    /// <summary>Finds the inspections that a text means, for a filter that is not a condition; null when there are too many.</summary>
    public Func<DbConnection, string, string?, Sought?>? Seek { get; init; }

    /// <summary>The conditions for a value, and the indexes that may be followed.</summary>
    public Func<object, FindSql> Sql { get; init; } = _ => new([]);

    /// <summary>The day column that the value limits, as its first ten characters.</summary>
    public FindDays? Days { get; init; }
}

/// <summary>A filter in SQL.</summary>
/// <param name="Conditions">What an inspection must fit.</param>
/// <param name="Leads">Indexes to follow. The first one whose columns are all asked for is used.</param>
internal sealed record FindSql(FindCondition[] Conditions, params FindLead[] Leads);

/// <summary>One choice of a list.</summary>
/// <param name="Value">Its value in the query.</param>
/// <param name="Words">Its words.</param>
/// <param name="Said">Other words that people type for it.</param>
/// <param name="Listed">Its words in the list, when they are longer.</param>
internal sealed record FindChoice(string Value, string Words, string Said = "", string? Listed = null);

/// <summary>The result of reading a typed text: a value or a fault.</summary>
internal readonly record struct FindValue(object? Value, string? Fault)
{
    public static FindValue Of(object value) => new(value, null);

    public static FindValue No(string fault) => new(null, fault);
}

/// <summary>A filter that is set.</summary>
internal sealed record FindTerm(FindFilter Filter, object Value);

/// <summary>A table in which inspections are found.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Alias">Its alias in SQL.</param>
/// <param name="Seq">Its column with the inspection's entry of the register.</param>
/// <param name="BySeq">The index for looking up one inspection, where the query names it.</param>
/// <param name="Also">The columns of inspection_index that it repeats.</param>
internal sealed record FindTable(string Name, string Alias, string Seq, string? BySeq, params (string Column, string Here)[] Also)
{
    /// <summary>The column of the inspection's entry, in SQL.</summary>
    public string Entry => $"{Alias}.{Seq}";

    /// <summary>The table as written after FROM or JOIN.</summary>
    /// <param name="hint">The index hint for the database engine.</param>
    public string From(string? hint) => hint is null ? $"{Name} {Alias}" : $"{Name} {Alias} {hint}";
}

/// <summary>A condition on an inspection: a table must have a row with its entry whose column passes a test.</summary>
/// <param name="Table">The table.</param>
/// <param name="Column">The column.</param>
/// <param name="Test">The test, as written after the column.</param>
/// <param name="IsNone">Whether there must be no such row.</param>
internal sealed record FindCondition(FindTable Table, string Column, string Test, bool IsNone = false)
{
    /// <summary>The condition in SQL on a table that has the column; null when it does not.</summary>
    public string? In(FindTable table) => ColumnIn(table) is { } column ? $"{table.Alias}.{column} {Test}" : null;

    /// <summary>The name of the column in a table; null when it has none.</summary>
    public string? ColumnIn(FindTable table) => IsNone ? null
        : Table == table ? Column
        : Table == FindFilters.Inspections ? Array.Find(table.Also, also => also.Column == Column).Here
        : null;
}

/// <summary>An index to follow, newest first.</summary>
/// <param name="Table">The table.</param>
/// <param name="Hint">Which of its indexes.</param>
/// <param name="Begins">The columns that the index begins with; each must be asked for.</param>
/// <param name="Turn">Of two that fit as many rows, the one with the lower number is used.</param>
/// <param name="IsNarrow">Whether it always fits few rows, so that they need not be counted.</param>
internal sealed record FindLead(FindTable Table, string? Hint, string[] Begins, int Turn, bool IsNarrow = false);

/// <summary>How a value limits the days to search.</summary>
/// <param name="Column">The column, or the part of it, that has the days in an index.</param>
/// <param name="IsLast">Whether the value is the last day; otherwise it is the first.</param>
internal sealed record FindDays(string Column, bool IsLast);
