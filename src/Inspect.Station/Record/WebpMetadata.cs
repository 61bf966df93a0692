using System.Buffers.Binary;
using System.Text;

namespace Inspect.Station.Record;

/// <summary>Removes from a WebP what was added to the picture: Exif, XMP and unknown chunks.</summary>
/// <remarks>
/// Chunks as in RFC 9649 section 2. Everything that changes how the picture is shown is kept byte for byte. The length of the file and two
/// flags of its extended header are updated. Of Exif only the orientation is kept.
/// </remarks>
public static class WebpMetadata
{
    private const int Head = 12;          // RIFF, length, WEBP
    private const int ChunkHead = 8;      // name and length
    private const int FrameHead = 16;     // of a frame of an animation, before its own chunks
    private const byte HasExif = 0x08;
    private const byte HasXmp = 0x04;

    private static readonly HashSet<string> Seen = ["VP8 ", "VP8L", "VP8X", "ALPH", "ANIM", "ANMF", "ICCP"];

    /// <summary>The picture without it; null when the bytes are not a complete sequence of chunks with a picture.</summary>
    public static byte[]? Without(ReadOnlySpan<byte> webp)
    {
        if (webp.Length < Head || !webp.StartsWith("RIFF"u8) || !webp[8..].StartsWith("WEBP"u8)
            || BinaryPrimitives.ReadUInt32LittleEndian(webp[4..]) is var length && (length < 4 || length > webp.Length - ChunkHead))
        {
            return null;
        }

        using var kept = new MemoryStream(webp.Length);
        kept.Write(webp[..Head]);

        // Bytes after the length given in the header are not part of the picture.
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

    /// <summary>Writes the chunks that are kept; null when the bytes are not a complete sequence of chunks.</summary>
    private static (bool HasPicture, ushort? Way)? Chunks(ReadOnlySpan<byte> chunks, MemoryStream kept)
    {
        var (hasPicture, way) = (false, default(ushort?));
        for (var at = 0; at < chunks.Length;)
        {
            if (at + ChunkHead > chunks.Length || BinaryPrimitives.ReadUInt32LittleEndian(chunks[(at + 4)..]) is var length
                && length > chunks.Length - at - ChunkHead)
            {
                return null;
            }

            var name = Encoding.ASCII.GetString(chunks.Slice(at, 4));
            var data = chunks.Slice(at + ChunkHead, (int)length);

            // An odd length is followed by one padding byte. Some writers leave it out at the end of the file.
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
                // The block begins at the start of the chunk, but some writers put the JPEG marker before it.
                way ??= ExifOrientation.Of(data.StartsWith("Exif\0\0"u8) ? data[6..] : data);
            }

            at += whole.Length;
        }

        return (hasPicture, way);
    }

    // A frame has its own chunks, and some of them may have to be removed.
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
