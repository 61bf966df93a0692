using System.Buffers.Binary;
using System.Text;

namespace Inspect.Station.Record;

/// <summary>Removes from a PNG what was added to the picture: texts, times, Exif and unknown chunks.</summary>
/// <remarks>
/// Chunks as in the PNG specification, third edition (W3C, 2025), sections 5 and 11. Everything that changes how the picture is shown is
/// kept byte for byte, with its check sums. Of Exif only the orientation is kept, in a new chunk.
/// </remarks>
public static class PngMetadata
{
    private const int Head = 8;
    private const int Around = 12; // length, type and check sum
    private const string Exif = "eXIf";

    private static readonly HashSet<string> Critical = ["IHDR", "PLTE", "IDAT", "IEND"];

    // Transparency, colour space, size of a pixel, background, and the frames of an animation.
    private static readonly HashSet<string> Seen =
        ["tRNS", "cHRM", "gAMA", "iCCP", "sBIT", "sRGB", "cICP", "mDCV", "cLLI", "bKGD", "pHYs", "acTL", "fcTL", "fdAT"];

    /// <summary>The picture without it; null when the bytes are not a complete sequence of chunks from header to end.</summary>
    public static byte[]? Without(ReadOnlySpan<byte> png)
    {
        if (!png.StartsWith(Photographs.Png))
        {
            return null;
        }

        using var kept = new MemoryStream(png.Length);
        kept.Write(png[..Head]);
        var (hasHeader, hasPicture) = (false, false);
        for (var at = Head; at + Around <= png.Length;)
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(png[at..]);
            if (length > png.Length - at - Around)
            {
                return null;
            }

            var chunk = png.Slice(at, Around + (int)length);
            var type = Encoding.ASCII.GetString(chunk[4..8]);
            var isCritical = Critical.Contains(type);

            // The header must be first and appear once. A picture with an unknown critical chunk cannot be shown (5.4, the case
            // of the first letter).
            if ((type == "IHDR") == hasHeader || (!isCritical && (chunk[4] & 0x20) == 0))
            {
                return null;
            }

            hasHeader = true;
            hasPicture |= type == "IDAT";
            if (type == Exif && ExifOrientation.Of(chunk[8..^4]) is { } way)
            {
                kept.Write(Chunk(ExifOrientation.Only(way)));
            }
            else if (isCritical || Seen.Contains(type))
            {
                kept.Write(chunk);
            }

            if (type == "IEND")
            {
                // Bytes after the end are not part of the picture.
                return hasPicture ? kept.ToArray() : null;
            }

            at += chunk.Length;
        }

        return null;
    }

    private static byte[] Chunk(byte[] data)
    {
        var chunk = new byte[Around + data.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        Encoding.ASCII.GetBytes(Exif, chunk.AsSpan(4));
        data.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + data.Length), CheckSum(chunk.AsSpan(4, 4 + data.Length)));
        return chunk;
    }

    // The CRC of ISO 3309 as in 5.5 and annex D, bit by bit: for a few dozen bytes no table is needed.
    private static uint CheckSum(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var each in bytes)
        {
            sum ^= each;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 1 ? 0xEDB88320 ^ (sum >> 1) : sum >> 1;
            }
        }

        return ~sum;
    }
}
