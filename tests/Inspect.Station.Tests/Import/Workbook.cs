using System.Globalization;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using SheetList = DocumentFormat.OpenXml.Spreadsheet.Sheets;

namespace Inspect.Station.Tests.Import;

/// <summary>A workbook written with the Open XML SDK, which knows nothing of what reads it.</summary>
public sealed class Workbook
{
    private const uint ThreeFigures = 164;
    private const uint DayAndTime = 165;

    private readonly List<(string Name, bool IsHidden, List<(object?[] Cells, bool IsHidden)> Rows, string? Merged)> _sheets = [];

    /// <summary>A number that its cell shows with three figures.</summary>
    public sealed record Padded(int Number);

    /// <summary>A formula with what was worked out last.</summary>
    public sealed record Formula(string Text, string Left);

    /// <summary>A cell with an error.</summary>
    public sealed record Broken(string Error);

    /// <summary>Begins another sheet.</summary>
    public Workbook Sheet(string name, bool isHidden = false, string? merged = null)
    {
        _sheets.Add((name, isHidden, [], merged));
        return this;
    }

    /// <summary>Adds a row to the sheet.</summary>
    public Workbook Row(params object?[] cells)
    {
        _sheets[^1].Rows.Add((cells, false));
        return this;
    }

    /// <summary>Adds a row that the sheet hides, as a filter does.</summary>
    public Workbook Hidden(params object?[] cells)
    {
        _sheets[^1].Rows.Add((cells, true));
        return this;
    }

    /// <summary>The file.</summary>
    public byte[] Bytes()
    {
        using var stream = new MemoryStream();
        using (var document = SpreadsheetDocument.Create(stream, SpreadsheetDocumentType.Workbook))
        {
            var book = document.AddWorkbookPart();
            book.AddNewPart<WorkbookStylesPart>().Stylesheet = Styles();
            var list = new SheetList();
            book.Workbook = new DocumentFormat.OpenXml.Spreadsheet.Workbook(list);
            foreach (var (index, sheet) in _sheets.Index())
            {
                var part = book.AddNewPart<WorksheetPart>();
                var data = new SheetData(sheet.Rows.Index().Where(row => row.Item.Cells.Length > 0).Select(row => new Row(
                    row.Item.Cells.Index().Where(cell => cell.Item is not null)
                        .Select(cell => CellOf(cell.Item!, cell.Index, row.Index + 1)))
                {
                    RowIndex = (uint)row.Index + 1,
                    Hidden = row.Item.IsHidden ? true : null,
                }));
                part.Worksheet = new Worksheet(data);
                if (sheet.Merged is { } merged)
                {
                    part.Worksheet.Append(new MergeCells(new MergeCell { Reference = merged }));
                }

                list.Append(new Sheet
                {
                    Id = book.GetIdOfPart(part),
                    SheetId = (uint)index + 1,
                    Name = sheet.Name,
                    State = sheet.IsHidden ? SheetStateValues.Hidden : null,
                });
            }
        }

        return stream.ToArray();
    }

    private static Stylesheet Styles() => new(
        new NumberingFormats(
            new NumberingFormat { NumberFormatId = ThreeFigures, FormatCode = "000" },
            new NumberingFormat { NumberFormatId = DayAndTime, FormatCode = "yyyy-mm-dd hh:mm" }),
        new Fonts(new Font()),
        new Fills(new Fill()),
        new Borders(new Border()),
        new CellStyleFormats(new CellFormat()),
        new CellFormats(
            new CellFormat(),
            new CellFormat { NumberFormatId = ThreeFigures, ApplyNumberFormat = true },
            new CellFormat { NumberFormatId = DayAndTime, ApplyNumberFormat = true }));

    private static Cell CellOf(object value, int column, int row)
    {
        var cell = new Cell { CellReference = $"{(char)('A' + column)}{row}" };
        switch (value)
        {
            case string text:
                (cell.DataType, cell.InlineString) = (CellValues.InlineString, new InlineString(new Text(text)));
                break;
            case Padded padded:
                (cell.CellValue, cell.StyleIndex) = (new CellValue(padded.Number), 1);
                break;
            case DateTime moment:
                (cell.CellValue, cell.StyleIndex) = (new CellValue(moment.ToOADate().ToString(CultureInfo.InvariantCulture)), 2);
                break;
            case Formula formula:
                (cell.DataType, cell.CellFormula, cell.CellValue) =
                    (CellValues.String, new CellFormula(formula.Text), new CellValue(formula.Left));
                break;
            case Broken broken:
                (cell.DataType, cell.CellValue) = (CellValues.Error, new CellValue(broken.Error));
                break;
            default:
                cell.CellValue = new CellValue(Convert.ToString(value, CultureInfo.InvariantCulture)!);
                break;
        }

        return cell;
    }
}
