using System.Globalization;
using System.Text;

namespace Inspect.Station.Tests.Import;

/// <summary>Lists of entries as they come. Every name is invented. tests/README.md says what each stands for.</summary>
internal static class UglyFiles
{
    private static readonly UTF8Encoding WithMark = new(encoderShouldEmitUTF8Identifier: true);

    private static readonly string[] First = ["Wendell", "Oriel", "Tamsin", "Corvin", "Ysolde", "Bram", "Petra", "Idris"];
    private static readonly string[] Last = ["Marrowfield", "Quillfeather", "Tarnmoor", "Halloway", "Aldenmoor"];

    /// <summary>40 entries with two more columns.</summary>
    public static byte[] FortyWithTwoMoreColumns => Utf8("Number,Name,Squad,Average,E-mail\n" + string.Concat(
        Enumerable.Range(0, 40).Select(i => string.Create(CultureInfo.InvariantCulture,
            $"{201 + i},{First[i % 8]} {Last[i / 8]},{"ABC"[i % 3]},{170 + i},{First[i % 8]}.{i}@post.example\n"))));

    /// <summary>Semicolons, a byte order mark, two columns for the name, heads in German, CRLF.</summary>
    public static byte[] EuropeanSpreadsheet => [.. WithMark.GetPreamble(), .. Utf8(
        "Startnummer;Verein;Nachname;Vorname;Gruppe\r\n11;KV Ost;Strömquist;Jürgen;A\r\n"
        + "12;;Kőhalmos;Zsófia;B\r\n\r\n13;\"SC; Süd\";Eldhamar;Þórdís;\r\n")];

    /// <summary>Windows-1252 without any mark.</summary>
    public static byte[] OldProgram => Encoding.Latin1.GetBytes(
        "No;Name;Squad\r\n21;Renée Aubercourt-Oléron;A\r\n22;Tomás Ibarrondo;B\r\n");

    /// <summary>Tabs in UTF-16, as "Unicode text" is saved.</summary>
    public static byte[] UnicodeText => [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(
        "Number\tName\tSquad\r\n31\tWierzbosz-Iwa, Łucja\tA\r\n32\tQuell, Tomás\tsquad b\r\n")];

    /// <summary>Title lines above the heads, empty lines, a sum at the foot.</summary>
    public static byte[] TitleAndFoot => Utf8(
        "Autumn Meeting,,,\nas of Monday,,,\n,,,\n"
        + "Squad,Entry #,Bowler,Paid\nA,41,Oriel Peat,yes\n,,,\nB,42,Corvin Peat,no\nSquad,Entry #,Bowler,Paid\n,,,\n,Total: 2,,\n");

    /// <summary>Names only, the last name first, no heads, no numbers.</summary>
    public static byte[] NamesOnly => Utf8("\"Halloway, Mirembe\"\n\"Quince, Bartholomew, Jr.\"\n\"Prys-Ardal, Gwenllian\"\n");

    /// <summary>What Python's csv module writes: RFC 4180 with CRLF, quotes only where they are needed, quotes doubled.</summary>
    public static byte[] Rfc4180 => Utf8(
        "number,name,squad,remark\r\n"
        + "51,\"Pat \"\"Bud\"\" Millstone\",A,\"left, at\r\nthe door\"\r\n52,\"Quill, Oriel\",B,\r\n53,Ysolde Tarn,C,\"\"\"\"\r\n");

    /// <summary>Quotes inside names that nobody quoted, blanks before quotes, as people type.</summary>
    public static byte[] TypedByHand => Utf8(
        "61, Pat \"Bud\" Millrace, A\n62 ,\"Quince, Tamsin\", b\n63,  Bram   \"the Hat\" Ash ,Squad C\n");

    /// <summary>A spreadsheet ate the zeros of some numbers.</summary>
    public static byte[] ZerosEaten => Utf8("Entry No,Name,Squad\n001,Idris Fell,A\n2,Petra Fell,A\n3,Bram Fell,B\n010,Tamsin Fell,C\n");

    /// <summary>Free places, a number twice, a name twice.</summary>
    public static byte[] Vacancies => Utf8(
        "Number,Name,Squad\n71,Oriel Marrow,A\n"
        + "72,-- vacant --,A\n73,VACANT,A\n74,Vacancy 3,B\n75,BYE,B\n76,TBA,B\n77,,C\n71,Corvin Marrow,B\n78,Oriel Marrow,C\n");

    /// <summary>A first line that tells the separator, and "Last, First" in one column.</summary>
    public static byte[] SeparatorTold => Utf8("sep=;\r\nName;Number\r\nMarrowby, Ysolde;81\r\nVan Der Maas, Noor;82\r\n");

    /// <summary>An empty first sheet, a merged title, numbers as text and as numbers, hidden rows.</summary>
    public static byte[] SeveralSheets => new Workbook()
        .Sheet("Notes")
        .Sheet("Lists", isHidden: true).Row("Number", "Name").Row(1, "Not To Be Read")
        .Sheet("Entries", merged: "A1:D1").Row("Entries of the autumn meeting").Row()
        .Row("Entry", "First name", "Surname", "Squad", "Average")
        .Row("91", "Oriel", "Stonegate", "A", 187.25).Row(92, "Corvin", "Stonegate", "B", 201).Hidden(93, "Tamsin", "Stonegate", "C", 175)
        .Row(94, "Bram", "Stonegate", "C", null)
        .Sheet("Reserves").Row("Number", "Name").Row(95, "Idris Stonegate")
        .Bytes();

    /// <summary>Numbers shown with zeros, squads by when they begin, names put together by a formula, a cell with an error.</summary>
    public static byte[] FormulasAndDates => new Workbook()
        .Sheet("Export").Row("Bib", "Bowler", "Start")
        .Row(new Workbook.Padded(7), new Workbook.Formula("A9&\" \"&B9", "Ysolde Reed"), StartOfB)
        .Row(new Workbook.Padded(8), "Petra Reed", "A")
        .Row(new Workbook.Padded(9), new Workbook.Broken("#N/A"), "A")
        .Row(new Workbook.Broken("#REF!"), "Corvin Reed", "C")
        .Bytes();

    /// <summary>Squads that the event does not have.</summary>
    public static byte[] UnknownSquads => Utf8("Number,Name,Squad\n" + string.Concat(Enumerable.Range(0, 22).Select(i =>
        string.Create(
            CultureInfo.InvariantCulture, $"{301 + i},{First[i % 8]} Fen{(char)('a' + i)},{(i < 2 ? "A" : i < 19 ? "E" : "Late")}\n"))));

    /// <summary>The same list a week later: one name put right, one squad changed, one bowler more.</summary>
    public static byte[] AWeekLater => Utf8(Encoding.UTF8.GetString(FortyWithTwoMoreColumns)
        .Replace("201,Wendell Marrowfield,A", "201,Wendel Marrowfield,A", StringComparison.Ordinal)
        .Replace("202,Oriel Marrowfield,B", "202,Oriel Marrowfield,C", StringComparison.Ordinal) + "241,Una Late,A,150,una@post.example\n");

    /// <summary>A table copied from a web page: blanks that do not break, two of them, no heads, averages behind the names.</summary>
    public static byte[] FromAWebPage => Utf8(
        "\u00A0401\t Oriel\u00A0Fenwater \tA\t187\n402\tCorvin  Fenwater\tB\t201\n\n403\tTamsin Fenwater\u200B\tC\t175\n");

    /// <summary>Heads in words that are not known.</summary>
    public static byte[] UnknownHeads => Utf8("Rata;Pelaaja;Vuoro;Nro\n5;Bram Ashdown;A;411\n6;Petra Ashdown;B;412\n");

    /// <summary>When squad B begins, as the event has it.</summary>
    public static DateTime StartOfB => Ground.StationClock.Today.ToDateTime(new TimeOnly(14, 0));

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
