using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using ExcelDataReader;
using ExcelDataReader.Exceptions;

namespace Inspect.Station.Import;

/// <summary>Reads a sheet of a workbook (XLSX). Formulas are not worked out: what the program that wrote the file
/// left in a cell is read.</summary>
internal static class WorkbookRows
{
    /// <summary>The most bytes of a workbook once unpacked, and the most parts: many times a list of 50,000 entries.</summary>
    private const long MostUnpacked = 256L * 1024 * 1024;

    private const int MostParts = 2000;

    // The reader asks for this encoding by its number when it starts.
    static WorkbookRows() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>The rows of a sheet, or null and why they cannot be read.</summary>
    public static ImportTable? Read(ImportFile file, int? sheet, out string? fault)
    {
        try
        {
            fault = FaultOfParts(file);
            if (fault is not null)
            {
                return null;
            }

            using var reader = ExcelReaderFactory.CreateOpenXmlReader(new MemoryStream(file.Bytes));
            return reader.ResultsCount > 0 ? Read(file, reader, sheet, out fault) : throw new InvalidDataException("It has no sheet.");
        }
        catch (Exception broken) when (broken is ExcelReaderException or InvalidDataException or XmlException or IOException
            or FormatException or ArgumentException or InvalidOperationException or NullReferenceException or OverflowException
            or IndexOutOfRangeException or KeyNotFoundException or NotSupportedException)
        {
            // What a damaged workbook makes of its reader.
            fault = $"{file.Name} is a workbook that is damaged or incomplete; open it in a spreadsheet, and save it again.";
            return null;
        }
    }

    // Unpacked it could fill the memory. The framework reads no more of a part than this says.
    private static string? FaultOfParts(ImportFile file)
    {
        using var parts = new ZipArchive(new MemoryStream(file.Bytes), ZipArchiveMode.Read);
        return parts.Entries.Count > MostParts || parts.Entries.Sum(part => part.Length) > MostUnpacked
            ? $"{file.Name} is larger than {MostUnpacked / 1048576} MB when it is unpacked; leave out columns or rows, or save it as CSV."
            : parts.Entries.Any(part => part.FullName.Equals("xl/workbook.xml", StringComparison.OrdinalIgnoreCase)) ? null
            : $"{file.Name} is packed, but it is not an XLSX workbook; save it as XLSX or CSV.";
    }

    private static ImportTable? Read(ImportFile file, IExcelDataReader reader, int? sheet, out string? fault)
    {
        var names = new List<string>();
        (List<TableRow> Rows, List<int> Hidden)? read = null;
        var chosen = sheet ?? 0;
        do
        {
            names.Add(reader.Name);
            var isAskedFor = sheet is null ? reader.VisibleState == "visible" && read is null : names.Count - 1 == sheet;
            if (!isAskedFor)
            {
                continue;
            }

            if (RowsOf(reader) is not { } rows)
            {
                fault = ImportTable.TooLong(file.Name);
                return null;
            }

            if (sheet is not null || rows.Rows.Count > 0)
            {
                (read, chosen) = (rows, names.Count - 1);
            }
        }
        while (reader.NextResult());

        fault = read is null && sheet is not null ? $"{file.Name} has no sheet {sheet + 1}." : null;
        return fault is null ? new ImportTable(read?.Rows ?? [], null, read?.Hidden ?? [], names, chosen, []) : null;
    }

    private static (List<TableRow> Rows, List<int> Hidden)? RowsOf(IExcelDataReader reader)
    {
        var rows = new List<TableRow>();
        var hidden = new List<int>();
        var cells = new List<string>();
        for (var number = 1; reader.Read(); number++)
        {
            if (number > ImportTable.MostRows)
            {
                return null;
            }

            cells.Clear();
            for (var i = 0; i < Math.Min(reader.FieldCount, ImportTable.MostColumns); i++)
            {
                cells.Add(Text(reader, i));
            }

            if (TableRow.Of(number, cells) is { } row)
            {
                rows.Add(row);
                if (reader.RowHeight == 0)
                {
                    hidden.Add(number);
                }
            }
        }

        return (rows, hidden);
    }

    private static string Text(IExcelDataReader reader, int column) => reader.GetValue(column) switch
    {
        null => "",
        string text => text,
        // A number that the sheet shows with leading zeros has them.
        double number when reader.GetNumberFormatString(column) is { Length: > 0 } zeros && zeros.All(each => each == '0') =>
            number.ToString(zeros, CultureInfo.InvariantCulture),
        double number => number.ToString("0.##########", CultureInfo.InvariantCulture),
        DateTime moment => moment.ToString(
            moment.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        var other => other.ToString() ?? "",
    };
}
