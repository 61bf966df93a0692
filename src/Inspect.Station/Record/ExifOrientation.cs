using System.Buffers.Binary;

namespace Inspect.Station.Record;

/// <summary>Which way up a picture is, the one thing of Exif that decides how it looks (CIPA DC-008; TIFF 6.0, tag 274).</summary>
internal static class ExifOrientation
{
    private const ushort Tag = 274;

    /// <summary>What Exif's block says, 2 to 8; null where it says nothing or that the picture is as stored.</summary>
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

    /// <summary>A block that says this and nothing else: big-endian, the directory at 8, one SHORT.</summary>
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
