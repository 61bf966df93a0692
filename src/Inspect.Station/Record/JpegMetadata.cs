using System.Buffers.Binary;

namespace Inspect.Station.Record;

/// <summary>Takes out of a JPEG what a camera wrote beside the picture: where and when it was taken, with what, small copies of it.</summary>
/// <remarks>
/// Segments and markers as in ITU-T T.81 annex B. What decides how the picture looks stays byte for byte: tables, scans, the JFIF
/// and Adobe segments, the colour profile, and of Exif which way up it is.
/// </remarks>
public static class JpegMetadata
{
    private const byte StartOfScan = 0xDA;
    private const byte EndOfImage = 0xD9;
    private const byte Jfif = 0xE0;
    private const byte Exif = 0xE1;
    private const byte Profile = 0xE2;
    private const byte Adobe = 0xEE;
    private const byte LastOfApplications = 0xEF;
    private const byte Comment = 0xFE;

    /// <summary>The same picture without it; null for bytes that are no whole row of segments. A picture cut short in its scan is kept so far.</summary>
    public static byte[]? Without(ReadOnlySpan<byte> jpeg)
    {
        if (!jpeg.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8]))
        {
            return null;
        }

        using var kept = new MemoryStream(jpeg.Length);
        kept.Write(jpeg[..2]);
        var hasScan = false;
        for (var at = 2; at < jpeg.Length;)
        {
            if (jpeg[at] != 0xFF)
            {
                return null;
            }

            if (at + 1 >= jpeg.Length)
            {
                break;
            }

            var marker = jpeg[at + 1];
            if (marker == 0xFF)
            {
                at++; // fill byte
                continue;
            }

            if (marker == EndOfImage)
            {
                // What some cameras append behind the picture, such as a second one with a place of its own, is left behind.
                kept.Write(jpeg.Slice(at, 2));
                break;
            }

            if (at + 4 > jpeg.Length || BinaryPrimitives.ReadUInt16BigEndian(jpeg[(at + 2)..]) is var length && (length < 2 || at + 2 + length > jpeg.Length))
            {
                return null;
            }

            var segment = jpeg.Slice(at, 2 + length);
            if (marker == Exif && OrientationOf(segment[4..]) is { } orientation)
            {
                kept.Write(OnlyOrientation(orientation));
            }
            else if (IsKept(marker, segment[4..]))
            {
                kept.Write(segment);
            }

            at += segment.Length;
            if (marker == StartOfScan)
            {
                hasScan = true;
                var end = EndOfScan(jpeg, at);
                kept.Write(jpeg[at..end]);
                at = end;
            }
        }

        return hasScan ? kept.ToArray() : null;
    }

    private static bool IsKept(byte marker, ReadOnlySpan<byte> content) => marker switch
    {
        Jfif => content.StartsWith("JFIF\0"u8),
        Profile => content.StartsWith("ICC_PROFILE\0"u8),
        Adobe => content.StartsWith("Adobe"u8),
        >= Exif and <= LastOfApplications or Comment => false,
        _ => true,
    };

    // Inside a scan FF 00 is a byte of it and FF D0 to FF D7 restart it; any other marker ends it.
    private static int EndOfScan(ReadOnlySpan<byte> jpeg, int from)
    {
        for (var at = from; at + 1 < jpeg.Length; at++)
        {
            if (jpeg[at] == 0xFF && jpeg[at + 1] is not 0x00 and not (>= 0xD0 and <= 0xD7) and not 0xFF)
            {
                return at;
            }
        }

        return jpeg.Length;
    }

    /// <summary>Which way up an Exif segment says the picture is; null where it says nothing or is none.</summary>
    private static ushort? OrientationOf(ReadOnlySpan<byte> content) => content.StartsWith("Exif\0\0"u8) ? ExifOrientation.Of(content[6..]) : null;

    private static byte[] OnlyOrientation(ushort way) => [0xFF, Exif, 0x00, 0x22, .. "Exif\0\0"u8, .. ExifOrientation.Only(way)];
}
