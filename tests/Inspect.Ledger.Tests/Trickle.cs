namespace Inspect.Ledger.Tests;

/// <summary>A stream that gives a few bytes at a time, as a slow network does.</summary>
internal sealed class Trickle(byte[] bytes, int size) : MemoryStream(bytes)
{
    public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(size, count));

    public override int Read(Span<byte> buffer) => base.Read(buffer[..Math.Min(size, buffer.Length)]);
}
