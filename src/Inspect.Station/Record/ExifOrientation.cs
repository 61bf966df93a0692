using System.Buffers.Binary;

namespace Inspect.Station.Record;

/// <summary>The orientation of a picture, which is the only Exif value that changes how it is shown (CIPA DC-008;
/// TIFF 6.0, tag 274).</summary>
internal static class ExifOrientation
{
    private const ushort Tag = 274;

    /// <summary>The orientation in an Exif block, 2 to 8; null when it has none or the picture is the right way up as stored.</summary>
    public static ushort? Of(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 8)
        {
            return null;
        }

        var isLittle = tiff.StartsWith("II"u8);
        var directory = Long(tiff[4..], isLittle);
        if (directory > tiff.Length - 2)
        {
            return null;
        }

        var fields = tiff[(int)directory..];
        var count = Short(fields, isLittle);
        for (var i = 0; i < count && 2 + (12 * (i + 1)) <= fields.Length; i++)
        {
            var field = fields.Slice(2 + (12 * i), 12);
            if (Short(field, isLittle) == Tag)
            {
                return Short(field[8..], isLittle) is var way and >= 2 and <= 8 ? way : null;
            }
        }

        return null;
    }

    /// <summary>An Exif block with this orientation and nothing else: big-endian, the directory at 8, one SHORT.</summary>
    public static byte[] Only(ushort way) =>
    [
        .. "MM"u8, 0x00, 0x2A, 0x00, 0x00, 0x00, 0x08,
        0x00, 0x01, 0x01, 0x12, 0x00, 0x03, 0x00, 0x00, 0x00, 0x01, 0x00, (byte)way, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,
    ];

    private static ushort Short(ReadOnlySpan<byte> bytes, bool isLittle) =>
        isLittle ? BinaryPrimitives.ReadUInt16LittleEndian(bytes) : BinaryPrimitives.ReadUInt16BigEndian(bytes);

    private static uint Long(ReadOnlySpan<byte> bytes, bool isLittle) =>
        isLittle ? BinaryPrimitives.ReadUInt32LittleEndian(bytes) : BinaryPrimitives.ReadUInt32BigEndian(bytes);
}
