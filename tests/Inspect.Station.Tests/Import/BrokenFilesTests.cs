using System.IO.Compression;
using System.Net;
using System.Text;
using Inspect.Station.Import;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Import;

/// <summary>Files that cannot be read, each refused with one sentence that says what would be right.</summary>
public class BrokenFilesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private const string Damaged = "is a workbook that is damaged or incomplete; open it in a spreadsheet, and save it again.";
    private const string NoRows = "has no rows; give at least one entry, such as 101, Name of the bowler, A.";

    public static TheoryData<string, byte[], string> Files => new()
    {
        {
            "picture.csv", [0x89, 0x50, 0x4E, 0x47, 0, 0, 0, 13],
            "is neither a text nor a workbook; save it as CSV in UTF-8, or as XLSX."
        },
        {
            "old.xls", [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1],
            "is a workbook of an older kind or is locked with a password; save it as XLSX or CSV without a password."
        },
        { "cut.xlsx", UglyFiles.SeveralSheets[..900], Damaged },
        { "bad.xlsx", Zip(("xl/workbook.xml", "<not><closed>")), Damaged },
        {
            "letter.docx", Zip(("word/document.xml", "<w/>")),
            "is packed, but it is not an XLSX workbook; save it as XLSX or CSV."
        },
        { "empty.csv", "\r\n ,, \r\n"u8.ToArray(), NoRows },
        { "blank.xlsx", new Workbook().Sheet("Entries").Bytes(), NoRows },
        {
            "long.csv", Encoding.UTF8.GetBytes("1,\"" + new string('x', 2_000_000)),
            "has a row of more than a million characters after row 0; close its quotes, and choose the file again."
        },
        {
            "rows.csv", Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(1, 100_001).Select(i => $"{i},x\n"))),
            "has more than 100,000 rows; split it, and choose one part after the other."
        },
        {
            "large.csv", new byte[ImportFile.MostBytes + 1],
            "has 20.1 MB, and at most 20 MB are taken; leave out rows."
        },
    };

    [Theory]
    [MemberData(nameof(Files), DisableDiscoveryEnumeration = true)]
    public async Task File_ThatCannotBeRead_IsRefusedInOneSentence(string name, byte[] bytes, string sentence)
    {
        using var director = await shared.Station.Client("director");

        using var answer = await director.SendFile(bytes, name);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal($"\"{name}\" {sentence}", (await answer.Read()).FaultAt("file"));
    }

    [Fact]
    public void Quotes_NeverClosed_AreNamed()
    {
        var text = "1,\"Oriel Tarn,A\n" + string.Concat(Enumerable.Range(2, 30).Select(i => $"{i},Bram Tarn,A\n"));

        Assert.False(new ImportFile("The list", Encoding.UTF8.GetBytes(text)).TryRead(null, out _, out var fault));

        Assert.Equal("The quotes before \"Oriel Tarn,A\" in row 1 of The list are never closed; close them or take them out.", fault);
    }

    /// <summary>A sheet says that it is 300 MB, or that it is 1000 bytes, and is 30 MB of blanks packed into 30 kB.</summary>
    [Theory]
    [InlineData(300 * 1024 * 1024, "is larger than 256 MB when it is unpacked")]
    [InlineData(1000, "is a workbook that is damaged or incomplete")]
    public void Workbook_ThatUnpacksToVeryMuch_IsRefusedUnread(int said, string fault)
    {
        const int Length = 30 * 1024 * 1024;
        var bytes = Blown(Length);

        // The directory at the end of the file has the sizes, four bytes each; APPNOTE.TXT of the ZIP format, 4.3.12.
        for (var at = bytes.AsSpan().LastIndexOf(BitConverter.GetBytes(Length)); at >= 0;
            at = bytes.AsSpan(0, at).LastIndexOf(BitConverter.GetBytes(Length)))
        {
            BitConverter.GetBytes(said).CopyTo(bytes, at);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.False(new ImportFile("bomb.xlsx", bytes).TryRead(null, out _, out var sentence));

        Assert.Contains(fault, sentence, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 8 * 1024 * 1024);
    }

    [Fact]
    public void Workbook_WithADocumentType_IsRefused()
    {
        var bytes = Zip(("xl/workbook.xml", "<!DOCTYPE w [<!ENTITY a \"aaaaaaaaaa\">]><workbook>&a;</workbook>"));

        Assert.False(new ImportFile("entity.xlsx", bytes).TryRead(null, out _, out var fault));

        Assert.Contains("damaged or incomplete", fault, StringComparison.Ordinal);
    }

    // A workbook whose sheet has that many bytes before its first row.
    private static byte[] Blown(int length)
    {
        using var stream = new MemoryStream();
        stream.Write(new Workbook().Sheet("Entries").Row("Number", "Name").Bytes());
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Update))
        {
            var sheet = zip.Entries.Single(part => part.FullName.StartsWith("xl/worksheets/", StringComparison.Ordinal));
            using var part = sheet.Open();
            using var reader = new StreamReader(part, leaveOpen: true);
            var text = reader.ReadToEnd();
            var at = text.IndexOf("<x:sheetData", StringComparison.Ordinal);
            Assert.True(at > 0);
            part.SetLength(0);
            part.Write(Encoding.UTF8.GetBytes(text[..at] + new string(' ', length - text.Length) + text[at..]));
        }

        return stream.ToArray();
    }

    private static byte[] Zip(params (string Name, string Text)[] parts)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create))
        {
            foreach (var (name, text) in parts)
            {
                using var part = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                foreach (var chunk in text.Chunk(1 << 20))
                {
                    part.Write(Encoding.UTF8.GetBytes(chunk));
                }
            }
        }

        return stream.ToArray();
    }
}
