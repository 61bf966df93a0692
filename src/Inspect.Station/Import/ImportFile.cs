using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Inspect.Station.Import;

/// <summary>A file that was chosen, or a list that was pasted, as its bytes.</summary>
/// <param name="Name">What it is called in a sentence.</param>
/// <param name="Bytes">Its bytes.</param>
public sealed record ImportFile(string Name, byte[] Bytes)
{
    /// <summary>The most bytes of a file: a list of 50,000 entries with twenty columns needs about half of it.</summary>
    public const int MostBytes = 20 * 1024 * 1024;

    /// <summary>The fault of a file with too many bytes; null when it may be read.</summary>
    public static string? TooLarge(string name, long bytes) => bytes <= MostBytes ? null : string.Create(
        CultureInfo.InvariantCulture,
        $"\"{name}\" has {Math.Ceiling(bytes / 104857.6) / 10:0.0} MB, and at most {MostBytes / 1048576} MB are taken; leave out rows.");

    /// <summary>Reads its rows. Nothing in it is run or worked out.</summary>
    /// <param name="sheet">Which sheet of a workbook, from 0; null for the first that has rows.</param>
    /// <param name="table">What was read.</param>
    /// <param name="fault">Why it cannot be read, in a sentence.</param>
    public bool TryRead(int? sheet, [NotNullWhen(true)] out ImportTable? table, [NotNullWhen(false)] out string? fault)
    {
        var bytes = Bytes.AsSpan();
        table = null;
        if (bytes.StartsWith("PK\u0003\u0004"u8))
        {
            table = WorkbookRows.Read(this, sheet, out fault);
        }
        else if (bytes.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
        {
            fault = $"{Name} is a workbook of an older kind or is locked with a password; save it as XLSX or CSV without a password.";
        }
        else
        {
            table = TextRows.Read(this, out fault);
        }

        if (table is { Rows.Count: 0 })
        {
            (table, fault) = (null, $"{Name} has no rows; give at least one entry, such as 101, Name of the bowler, A.");
        }

        fault = table is null ? fault ?? $"{Name} cannot be read." : null;
        return table is not null;
    }
}
