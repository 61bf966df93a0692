using Inspect.Ledger;

namespace Inspect.Station.CommandLine;

/// <summary>The line on a terminal that says how far a long file was read. It is written over and taken away at the end; where nobody
/// looks at a terminal there is none.</summary>
/// <param name="terminal">Where the line is written.</param>
/// <param name="time">The clock that says when the line is due again.</param>
public sealed class Progress(TextWriter terminal, TimeProvider time)
{
    private const double BytesOfMegabyte = 1e6;

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    /// <summary>The progress line of this process: on its error output, if that is a terminal.</summary>
    public static Progress? OfThisProcess() => Console.IsErrorRedirected ? null : new Progress(Console.Error, TimeProvider.System);

    /// <summary>The same pieces; the line is written as they are taken.</summary>
    /// <param name="pieces">The pieces of a file.</param>
    /// <param name="length">How long the file is in bytes, or null when that is not known.</param>
    public IEnumerable<WholeLines> Over(IEnumerable<WholeLines> pieces, long? length)
    {
        var (place, last, shown) = (0L, time.GetUtcNow(), 0);
        try
        {
            foreach (var piece in pieces)
            {
                yield return piece;
                place += piece.Bytes.Length;
                if (time.GetUtcNow() - last >= Pause)
                {
                    (last, shown) = (time.GetUtcNow(), Write(Line(place, length), shown));
                }
            }
        }
        finally
        {
            if (shown > 0)
            {
                Write("", shown);
                terminal.Write('\r');
                terminal.Flush();
            }
        }
    }

    private int Write(string line, int before)
    {
        terminal.Write('\r' + line.PadRight(before));
        terminal.Flush();
        return line.Length;
    }

    private static string Line(long place, long? length) => length is > 0
        ? FormattableString.Invariant($"{place / BytesOfMegabyte:N0} of {length / BytesOfMegabyte:N0} MB read, {place * 100 / length} %")
        : FormattableString.Invariant($"{place / BytesOfMegabyte:N0} MB read");
}
