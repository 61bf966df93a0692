using System.Security.Cryptography;

namespace Inspect.Station.Close;

/// <summary>Passes bytes on, written or read, and hashes them on the way.</summary>
/// <param name="inner">The stream behind it, which it disposes.</param>
/// <param name="most">How many bytes are read at most.</param>
internal sealed class HashingStream(Stream inner, long most = long.MaxValue) : Stream
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private long _length;

    public override bool CanRead => inner.CanRead;

    public override bool CanSeek => false;

    public override bool CanWrite => inner.CanWrite;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => _length;
        set => throw new NotSupportedException();
    }

    /// <summary>What has passed, as a file of an archive.</summary>
    public ArchivedFile Finish(string name) => new(name, Convert.ToHexStringLower(_hash.GetHashAndReset()), _length);

    /// <exception cref="InvalidDataException">There are more bytes than are read at most.</exception>
    public override int Read(Span<byte> buffer)
    {
        var read = inner.Read(buffer);
        _hash.AppendData(buffer[..read]);
        _length += read;
        return _length <= most ? read : throw new InvalidDataException("It is larger than its manifest says.");
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        inner.Write(buffer);
        _hash.AppendData(buffer);
        _length += buffer.Length;
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Flush() => inner.Flush();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
            _hash.Dispose();
        }

        base.Dispose(disposing);
    }
}
