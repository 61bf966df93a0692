using System.Buffers.Binary;
using System.Text;

namespace Inspect.Station.Record;

/// <summary>Takes out of a WebP what was written beside the picture: Exif, XMP, and chunks that no specification names.</summary>
/// <remarks>
/// Chunks as in RFC 9649 section 2. What decides how the picture looks stays byte for byte; the length of the file and two flags of its extended header
/// are written anew, and of Exif stays which way up the picture is.
/// </remarks>
public static class WebpMetadata
{
    private const int Head = 12;          // RIFF, length, WEBP
    private const int ChunkHead = 8;      // name and length
    private const int FrameHead = 16;     // of a frame of an animation, before its own chunks
    private const byte HasExif = 0x08;
    private const byte HasXmp = 0x04;

    private static readonly HashSet<string> Seen = ["VP8 ", "VP8L", "VP8X", "ALPH", "ANIM", "ANMF", "ICCP"];

    /// <summary>The same picture without it; null for bytes that are no whole row of chunks with a picture among them.</summary>
    public static byte[]? Without(ReadOnlySpan<byte> webp)
    {
        if (webp.Length < Head || !webp.StartsWith("RIFF"u8) || !webp[8..].StartsWith("WEBP"u8)
            || BinaryPrimitives.ReadUInt32LittleEndian(webp[4..]) is var length && (length < 4 || length > webp.Length - ChunkHead))
        {
            return null;
        }

        using var kept = new MemoryStream(webp.Length);
        kept.Write(webp[..Head]);

        // What stands behind the length that the file gives is no part of the picture.
        var picture = Chunks(webp[Head..(ChunkHead + (int)length)], kept);
        if (picture is not { HasPicture: true } read)
        {
            return null;
        }

        if (read.Way is { } way)
        {
            var exif = ExifOrientation.Only(way);
            kept.Write([.. "EXIF"u8, (byte)exif.Length, 0, 0, 0, .. exif]);
        }

        var bare = kept.ToArray();
        BinaryPrimitives.WriteInt32LittleEndian(bare.AsSpan(4), bare.Length - ChunkHead);
        if (bare.AsSpan(Head).StartsWith("VP8X"u8))
        {
            ref var flags = ref bare[Head + ChunkHead];
            flags = (byte)((flags & ~(HasExif | HasXmp)) | (read.Way is null ? 0 : HasExif));
        }

        return bare;
    }

    /// <summary>Writes the chunks that are seen; null for bytes that are no whole row of chunks.</summary>
    private static (bool HasPicture, ushort? Way)? Chunks(ReadOnlySpan<byte> chunks, MemoryStream kept)
    {
        var (hasPicture, way) = (false, default(ushort?));
        for (var at = 0; at < chunks.Length;)
        {
            if (at + ChunkHead > chunks.Length || BinaryPrimitives.ReadUInt32LittleEndian(chunks[(at + 4)..]) is var length && length > chunks.Length - at - ChunkHead)
            {
                return null;
            }

            var name = Encoding.ASCII.GetString(chunks.Slice(at, 4));
            var data = chunks.Slice(at + ChunkHead, (int)length);

            // An odd length is followed by one byte that belongs to nothing; some writers leave it out at the very end.
            var whole = chunks[at..Math.Min(at + ChunkHead + (int)length + ((int)length & 1), chunks.Length)];
            if (name == "ANMF")
            {
                if (data.Length < FrameHead || Frame(whole[..ChunkHead], data, kept) is not true)
                {
                    return null;
                }

                hasPicture = true;
            }
            else if (Seen.Contains(name))
            {
                hasPicture |= name is "VP8 " or "VP8L";
                if (name == "VP8X" && data.Length < 10)
                {
                    return null;
                }

                kept.Write(whole);
                kept.Write(new byte[whole.Length & 1]);
            }
            else if (name == "EXIF")
            {
                // The block begins at once; some writers put the mark of a JPEG before it.
                way ??= ExifOrientation.Of(data.StartsWith("Exif\0\0"u8) ? data[6..] : data);
            }

            at += whole.Length;
        }

        return (hasPicture, way);
    }

    // A frame has chunks of its own, and may have some that are not seen among them.
    private static bool Frame(ReadOnlySpan<byte> head, ReadOnlySpan<byte> data, MemoryStream kept)
    {
        using var frame = new MemoryStream(data.Length);
        frame.Write(data[..FrameHead]);
        if (Chunks(data[FrameHead..], frame) is not { HasPicture: true })
        {
            return false;
        }

        Span<byte> written = stackalloc byte[ChunkHead];
        head.CopyTo(written);
        BinaryPrimitives.WriteInt32LittleEndian(written[4..], (int)frame.Length);
        kept.Write(written);
        frame.WriteTo(kept);
        return true;
    }
}
