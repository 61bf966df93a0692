namespace Inspect.Ledger;

/// <summary>A piece of a stream that ends where a line ends, so that several pieces can be worked on at once.</summary>
/// <param name="First">The number of its first line, from 1.</param>
/// <param name="Bytes">The lines; the newline of the last line of the stream may be absent.</param>
/// <param name="IsEndless">Whether its first line does not end within <see cref="Longest"/> bytes. There are then no bytes in it, and no
/// piece after it.</param>
public readonly record struct WholeLines(long First, ReadOnlyMemory<byte> Bytes, bool IsEndless = false)
{
    /// <summary>The longest line that is read, so that a file without newlines cannot fill the memory.</summary>
    public const int Longest = 16 * 1024 * 1024;

    // Small enough that a piece is collected young.
    private const int Usual = 64 * 1024;

    /// <summary>Cuts a stream into pieces, in order. One is read at a time.</summary>
    /// <param name="stream">The stream, from where it stands.</param>
    /// <param name="afterLast">Where the last unit ends that is whole in the bytes given, which begin with a unit; 0 when none does.
    /// Absent, every line is a unit.</param>
    public static IEnumerable<WholeLines> Of(Stream stream, Func<ReadOnlySpan<byte>, int>? afterLast = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        afterLast ??= bytes => bytes.LastIndexOf((byte)'\n') + 1;
        var (buffer, filled, first) = (GC.AllocateUninitializedArray<byte>(Usual), 0, 1L);
        while (true)
        {
            filled += stream.ReadAtLeast(buffer.AsSpan(filled), buffer.Length - filled, throwOnEndOfStream: false);
            var isEnd = filled < buffer.Length;
            var whole = isEnd ? filled : afterLast(buffer);
            if (whole == 0 && !isEnd && buffer.Length <= Longest)
            {
                Array.Resize(ref buffer, Math.Min(2 * buffer.Length, Longest + 1));
                continue;
            }

            if (whole == 0)
            {
                if (!isEnd)
                {
                    yield return new WholeLines(first, default, IsEndless: true);
                }

                yield break;
            }

            var piece = new WholeLines(first, buffer.AsMemory(0, whole));
            var rest = buffer.AsSpan(whole, filled - whole);
            buffer = GC.AllocateUninitializedArray<byte>(Math.Max(Usual, 2 * rest.Length));
            rest.CopyTo(buffer);
            (first, filled) = (first + piece.Bytes.Span.Count((byte)'\n'), rest.Length);
            yield return piece;
            if (isEnd)
            {
                yield break;
            }
        }
    }
}
