using System.Buffers.Binary;

namespace Inspect.Station.Record;

/// <summary>Removes from a JPEG what a camera adds to the picture: place, time, the camera, small copies.</summary>
/// <remarks>
/// Segments and markers as in ITU-T T.81 annex B. Everything that changes how the picture is shown is kept byte for byte: tables, scans,
/// the JFIF and Adobe segments, the colour profile. Of Exif only the orientation is kept.
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

    /// <summary>The picture without it; null when the bytes are not a complete sequence of segments. A picture that ends within its scan is
    /// kept as far as it goes.</summary>
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
                // What some cameras append after the picture, such as a second one with its own place, is removed.
                kept.Write(jpeg.Slice(at, 2));
                break;
            }

            if (at + 4 > jpeg.Length || BinaryPrimitives.ReadUInt16BigEndian(jpeg[(at + 2)..]) is var length
                && (length < 2 || at + 2 + length > jpeg.Length))
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

    // Inside a scan, FF 00 is a data byte and FF D0 to FF D7 restart the scan. Any other marker ends it.
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

    /// <summary>The orientation in an Exif segment; null when it has none or is not an Exif segment.</summary>
    private static ushort? OrientationOf(ReadOnlySpan<byte> content) =>
        content.StartsWith("Exif\0\0"u8) ? ExifOrientation.Of(content[6..]) : null;

    private static byte[] OnlyOrientation(ushort way) => [0xFF, Exif, 0x00, 0x22, .. "Exif\0\0"u8, .. ExifOrientation.Only(way)];
}
