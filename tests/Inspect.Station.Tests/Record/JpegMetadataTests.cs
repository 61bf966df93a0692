using System.Text;
using Inspect.Station.Record;

namespace Inspect.Station.Tests.Record;

/// <summary>
/// What a camera writes beside the picture. Segments as in ITU-T T.81 annex B, Exif as in CIPA DC-008 with the orientation as in TIFF 6.0
/// (tag 274, SHORT) in both byte orders; the pictures are put together here by hand.
/// </summary>
public sealed class JpegMetadataTests
{
    private static readonly byte[] Start = [0xFF, 0xD8];
    private static readonly byte[] Jfif = Segment(0xE0, [.. "JFIF\0"u8, 1, 2, 0, 0, 1, 0, 1, 0, 0]);
    private static readonly byte[] Profile = Segment(0xE2, [.. "ICC_PROFILE\0"u8, 1, 1, 9, 9]);
    private static readonly byte[] Tables = Segment(0xDB, [0, 1, 2, 3]);

    // A scan with a stuffed FF, a restart, and the marker of a second scan.
    private static readonly byte[] Scans = [
        .. Segment(0xDA, [1, 1]), 0x11, 0xFF, 0x00, 0xFF, 0xD0, 0x22, .. Segment(0xC4, [7]), .. Segment(0xDA, [1, 2]), 0x33];
    private static readonly byte[] End = [0xFF, 0xD9];

    [Fact]
    public void Without_APlaceACommentAndASecondPicture_KeepsWhatIsSeenByteForByte()
    {
        byte[] taken =
        [
            .. Start, .. Jfif, .. Exif(isLittle: true, way: 1), .. Segment(0xE1, [.. "http://ns.adobe.com/xap/1.0/\0GPS"u8]), .. Profile,
            .. Segment(0xE2, [.. "MPF\0GPS"u8]), .. Segment(0xED, [.. "GPS"u8]), .. Segment(0xFE, [.. "GPS"u8]), .. Tables, .. Scans,
            .. End,
            .. Start, .. Exif(isLittle: false, way: 1), .. End,
        ];

        byte[] expected = [.. Start, .. Jfif, .. Profile, .. Tables, .. Scans, .. End];
        Assert.Equal(expected, JpegMetadata.Without(taken));
        Assert.Equal(expected, JpegMetadata.Without(expected));
    }

    [Theory]
    [InlineData(true, 6)]
    [InlineData(false, 6)]
    [InlineData(true, 3)]
    [InlineData(false, 8)]
    public void Without_APictureThatLiesOnItsSide_StillSaysSoAndNoMore(bool isLittle, byte way)
    {
        var bare = JpegMetadata.Without([.. Start, .. Exif(isLittle, way), .. Tables, .. Scans, .. End])!;

        Assert.Equal([.. Start, .. Exif(isLittle: false, way, withPlace: false), .. Tables, .. Scans, .. End], bare);
        Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(bare), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_CutShortAnywhere_NeverThrowsAndNeverLetsAPlaceThrough()
    {
        byte[] whole = [.. Start, .. Jfif, .. Exif(isLittle: true, way: 6), .. Tables, .. Scans, .. End];
        for (var length = 0; length <= whole.Length; length++)
        {
            var bare = JpegMetadata.Without(whole.AsSpan(0, length));
            Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(bare ?? []), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Without_NotARowOfSegments_IsRefused()
    {
        Assert.Null(JpegMetadata.Without([.. Start, 0xFF, 0xE0, 0x00, 0x10, 0x4A]));
        Assert.Null(JpegMetadata.Without([.. Start, .. Jfif, 0x00, .. Tables, .. Scans, .. End]));
        Assert.Null(JpegMetadata.Without([.. Start, .. Jfif, .. Tables, .. End]));
        Assert.Null(JpegMetadata.Without("RIFF"u8));
    }

    private static byte[] Segment(byte marker, byte[] content) =>
        [0xFF, marker, (byte)((content.Length + 2) >> 8), (byte)((content.Length + 2) & 0xFF), .. content];

    /// <summary>One directory: the orientation, and where a place is asked for, a camera's model that reads GPS before it.</summary>
    internal static byte[] Exif(bool isLittle, byte way, bool withPlace = true)
    {
        byte[] Short(int value) => isLittle ? [(byte)(value & 0xFF), (byte)(value >> 8)] : [(byte)(value >> 8), (byte)(value & 0xFF)];
        byte[] Long(int value) => isLittle ? [.. Short(value), 0, 0] : [0, 0, .. Short(value)];
        byte[] model = withPlace ? [.. Short(272), .. Short(2), .. Long(4), .. "GPS\0"u8] : [];
        return Segment(0xE1,
        [
            .. "Exif\0\0"u8, .. isLittle ? "II"u8 : "MM"u8, .. Short(42), .. Long(8), .. Short(withPlace ? 2 : 1), .. model,
            .. Short(274), .. Short(3), .. Long(1), .. Short(way), 0, 0, .. Long(0),
        ]);
    }
}
