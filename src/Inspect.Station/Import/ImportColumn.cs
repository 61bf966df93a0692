namespace Inspect.Station.Import;

/// <summary>What a column of a file is.</summary>
public enum ImportColumn
{
    /// <summary>Nothing that an entry has.</summary>
    Ignored,

    /// <summary>The entry's number.</summary>
    Number,

    /// <summary>The name as people read it.</summary>
    Name,

    /// <summary>The name with the last name first and a comma behind it.</summary>
    LastFirst,

    /// <summary>The first name, where first and last name have a column each.</summary>
    FirstName,

    /// <summary>The last name.</summary>
    LastName,

    /// <summary>The squad.</summary>
    Squad,

    /// <summary>Whether the bowler is under age.</summary>
    UnderAge,

    /// <summary>When the bowler was born, of which only is kept whether they are under age.</summary>
    BirthDate,
}

/// <summary>The words of the columns on pages, in forms and in the store, and the heads by which they are known.</summary>
public static class ImportColumns
{
    /// <summary>Every column: its word in a form and in the store, and its label.</summary>
    public static IReadOnlyList<(ImportColumn Column, string Word, string Label)> All { get; } =
    [
        (ImportColumn.Ignored, "ignored", "Left out"),
        (ImportColumn.Number, "number", "Number"),
        (ImportColumn.Name, "name", "Name"),
        (ImportColumn.LastFirst, "last-first", "Name, as Last, First"),
        (ImportColumn.FirstName, "first-name", "First name"),
        (ImportColumn.LastName, "last-name", "Last name"),
        (ImportColumn.Squad, "squad", "Squad"),
        (ImportColumn.UnderAge, "under-age", "Under age"),
        (ImportColumn.BirthDate, "birth-date", "Birth date, for who is under age"),
    ];

    // Folded as names are. The lists that associations send out have their heads in their own language.
    private static readonly Dictionary<string, ImportColumn> Heads = new (ImportColumn Column, string[] Heads)[]
    {
        (ImportColumn.Number,
        [
            "number", "no", "nr", "num", "entry", "entry no", "entry nr", "entry number", "bib", "bib no", "start no", "start number",
            "bowler no", "bowler number", "startnummer", "startnr", "numero", "dorsal", "nummer",
        ]),
        (ImportColumn.Name,
        [
            "name", "full name", "fullname", "bowler", "bowler name", "name of bowler", "player", "player name", "competitor",
            "participant", "athlete", "spieler", "nom", "nombre", "namn", "navn", "nome",
        ]),
        (ImportColumn.LastFirst, ["last first", "last name first name", "surname first name", "name last first"]),
        (ImportColumn.FirstName,
        [
            "first", "first name", "firstname", "given name", "forename", "vorname", "prenom", "fornamn", "fornavn", "etunimi",
        ]),
        (ImportColumn.LastName,
        [
            "last", "last name", "lastname", "surname", "family name", "nachname", "familienname", "nom de famille", "apellido",
            "apellidos", "efternamn", "etternavn", "sukunimi", "cognome",
        ]),
        (ImportColumn.Squad, ["squad", "squad no", "squad name", "squads", "shift", "flight", "gruppe", "start", "turno"]),
        (ImportColumn.UnderAge,
        [
            "under age", "underage", "junior", "juniors", "is junior", "minor", "is minor", "under 18", "u18", "u 18", "youth",
            "minderjahrig", "unter 18", "mineur", "menor", "jugend",
        ]),
        (ImportColumn.BirthDate,
        [
            "date of birth", "birth date", "birthdate", "birthday", "dob", "d o b", "born", "geburtsdatum", "geburtstag", "geb datum",
            "date de naissance", "fecha de nacimiento", "data di nascita", "fodelsedatum", "fodselsdato", "syntymaaika",
        ]),
    }.SelectMany(each => each.Heads.Select(head => (head, each.Column))).ToDictionary(each => each.head, each => each.Column);

    // Words in the head of a column that says how somebody is reached.
    private static readonly HashSet<string> OfContacts = new(
        [
            "guardian", "guardians", "parent", "parents", "mother", "father", "emergency", "contact", "phone", "telephone", "tel",
            "mobile", "cell", "telefon", "handy", "eltern", "erziehungsberechtigte", "telefono", "portable", "padre", "madre",
        ],
        StringComparer.Ordinal);

    /// <summary>Whether a head names a guardian or a telephone, which no list brings into the station.</summary>
    public static bool IsOfContact(string head) => Access.NameFold.Words(head).Any(OfContacts.Contains);

    /// <summary>The word of a column.</summary>
    public static string Word(this ImportColumn column) => All.First(each => each.Column == column).Word;

    /// <summary>The column of a word; ignored when there is no such word.</summary>
    public static ImportColumn Of(string? word) => All.FirstOrDefault(each => each.Word == word).Column;

    /// <summary>The column that a head names; ignored when it names none.</summary>
    public static ImportColumn OfHead(string head) => head.Trim() == "#" ? ImportColumn.Number
        : Heads.GetValueOrDefault(string.Join(' ', Access.NameFold.Words(head)));

    /// <summary>Whether it has the name or a part of it.</summary>
    public static bool IsOfName(this ImportColumn column) =>
        column is ImportColumn.Name or ImportColumn.LastFirst or ImportColumn.FirstName or ImportColumn.LastName;
}
