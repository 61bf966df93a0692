using System.Buffers.Binary;
using System.Text;
using Inspect.Station.Record;

namespace Inspect.Station.Tests.Record;

/// <summary>
/// What is written beside the picture in a PNG (W3C, Portable Network Graphics, third edition) and a WebP (RFC 9649). The pictures were
/// made by ImageMagick 7.1.2-35 with libpng and libwebp: six by four pixels, with and without a comment, an author, XMP, and Exif with a
/// place and the orientation 6. What its encoders do not write is put together here by the specifications.
/// </summary>
public sealed class PictureMetadataTests
{
    private static readonly byte[] PngTaken = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAAAYAAAAECAMAAACa2r5xAAAAIGNIUk0AAHomAACAhAAA+gAAAIDoAAB1MAAA6mAAADqYAAAXcJy6UTwAAAB7ZVhJZklJKgAIAAAAAwAQAQIACwAAADYA" +
        "AAASAQMAAQAAAAYAAAAliAQAAQAAAEEAAAAAAAAAAAAAAEdQUyBjYW1lcmEAAgABAAIAAgAAAE4AAAACAAUAAwAAAGMAAAAAAAAAAAAAADQAAAABAAAAHgAAAAEAAAABAAAAAQAAAHl0" +
        "qdQAAABIUExURQAAWigAWlAAWngAWqAAWsgAWgA8Wig8WlA8Wng8WqA8Wsg8WgB4Wih4WlB4Wnh4WqB4Wsh4WgC0Wii0WlC0Wni0WqC0Wsi0WovbTAQAAAAHdElNRQfqCxkTADOAesd/" +
        "AAAAi3RFWHRSYXcgcHJvZmlsZSB0eXBlIHhtcAAKeG1wCiAgICAgIDUxCjNjNzgzYTc4NmQ3MDZkNjU3NDYxMjA3ODZkNmM2ZTczM2E3ODNkMjc2MTY0NmY2MjY1M2E2ZTczM2E2ZDY1" +
        "NzQ2MTJmMjczZQo0NzUwNTMzYzJmNzgzYTc4NmQ3MDZkNjU3NDYxM2UKNInMZQAAABJ0RVh0QXV0aG9yAEdQUyBzb21lb25lxHALZgAAABB0RVh0Y29tbWVudABHUFMgNTIuNaZ121cA" +
        "AAAldEVYdGRhdGU6Y3JlYXRlADIwMjYtMTEtMjVUMTk6MDA6NTErMDA6MDCWgCTzAAAAJXRFWHRkYXRlOm1vZGlmeQAyMDI2LTExLTI1VDE5OjAwOjUxKzAwOjAw592cTwAAACh0RVh0" +
        "ZGF0ZTp0aW1lc3RhbXAAMjAyNi0xMS0yNVQxOTowMDo1MSswMDowMLDIvZAAAAABb3JOVAZRxuI5AAAAJElEQVQI12NgYGRiZmFlYGPn4OTiZuDh5eMXEGQQEhYRFRMHAAoCARWUTqKX" +
        "AAAAAElFTkSuQmCC");

    private static readonly byte[] WebpTaken = Convert.FromBase64String(
        "UklGRiIBAABXRUJQVlA4WAoAAAAMAAAABQAAAwAAVlA4IEQAAAAQAgCdASoGAAQAAgA0JbACdEyAAdWtw2wAAP7xtVckxsXCxe+E9ZS14C5zc1+G2lHsf/7o4gOX5/Ge44ON05/DTlcA" +
        "AEVYSUZ7AAAASUkqAAgAAAADABABAgALAAAANgAAABIBAwABAAAABgAAACWIBAABAAAAQQAAAAAAAAAAAAAAR1BTIGNhbWVyYQACAAEAAgACAAAATgAAAAIABQADAAAAYwAAAAAAAAAA" +
        "AAAANAAAAAEAAAAeAAAAAQAAAAEAAAABAAAAAFhNUCAzAAAAPHg6eG1wbWV0YSB4bWxuczp4PSdhZG9iZTpuczptZXRhLyc+R1BTPC94OnhtcG1ldGE+AA==");

    private static readonly byte[] WebpPlain = Convert.FromBase64String(
        "UklGRlAAAABXRUJQVlA4IEQAAAAQAgCdASoGAAQAAgA0JbACdEyAAdWtw2wAAP7xtVckxsXCxe+E9ZS14C5zc1+G2lHsf/7o4gOX5/Ge44ON05/DTlcAAA==");

    private static readonly string[] OfThePicture = ["IHDR", "cHRM", "PLTE", "IDAT", "IEND"];

    [Fact]
    public void Png_FromAnotherProgram_KeepsWhatIsSeenByteForByteAndWhichWayUp()
    {
        Assert.Equal(
            ["IHDR", "cHRM", "eXIf", "PLTE", "tIME", "tEXt", "tEXt", "tEXt", "tEXt", "tEXt", "tEXt", "orNT", "IDAT", "IEND"],
            PngChunks(PngTaken).Select(chunk => chunk.Type));

        var bare = PngMetadata.Without(PngTaken)!;

        Assert.Equal(["IHDR", "cHRM", "eXIf", "PLTE", "IDAT", "IEND"], PngChunks(bare).Select(chunk => chunk.Type));
        Assert.Equal(PngChunks(PngTaken).Where(chunk => OfThePicture.Contains(chunk.Type)).Select(Hex), PngChunks(bare).Where(
            chunk => chunk.Type != "eXIf").Select(Hex));
        Assert.Equal(Oriented(6), PngChunks(bare).Single(chunk => chunk.Type == "eXIf").Bytes[8..^4]);
        Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(bare), StringComparison.Ordinal);
        Assert.Equal(bare, PngMetadata.Without(bare)!);
    }

    [Fact]
    public void Png_OrientationMadeAnew_HasTheCheckSumOfTheSpecification()
    {
        // By zlib's crc32 over the chunk's type and data.
        var chunk = PngChunks(PngMetadata.Without(PngTaken)!).Single(each => each.Type == "eXIf").Bytes;

        Assert.Equal(ZlibCrc, Convert.ToHexString(chunk[^4..]));
    }

    [Fact]
    public void Png_ColourAndFramesStay_WhatNoSpecificationNamesGoes()
    {
        var (header, picture, end) = (Of(PngTaken, "IHDR"), Of(PngTaken, "IDAT"), Of(PngTaken, "IEND"));
        byte[] seen = [
            .. Chunk("gAMA", "1234"), .. Chunk("cICP", "1234"), .. Chunk("pHYs", "123456789"), .. Chunk("acTL", "12345678"),
            .. Chunk("fcTL", "x"), .. Of(PngTaken, "PLTE"), .. Chunk("tRNS", "x")];
        byte[] taken =
        [
            .. Photographs.Png, .. header, .. Chunk("gpSt", "GPS"), .. Chunk("iTXt", "GPS"), .. Chunk("zTXt", "GPS"), .. seen, .. picture,
            .. Chunk("fdAT", "x"),
            .. Chunk("dSIG", "GPS"), .. end, .. "GPS behind the end"u8,
        ];

        Assert.Equal([.. Photographs.Png, .. header, .. seen, .. picture, .. Chunk("fdAT", "x"), .. end], PngMetadata.Without(taken)!);
    }

    [Fact]
    public void Png_BrokenOffOrNoRowOfChunks_IsRefused()
    {
        for (var length = 0; length < PngTaken.Length; length++)
        {
            Assert.Null(PngMetadata.Without(PngTaken.AsSpan(0, length)));
        }

        var (header, picture, end) = (Of(PngTaken, "IHDR"), Of(PngTaken, "IDAT"), Of(PngTaken, "IEND"));
        Assert.Null(PngMetadata.Without([.. Photographs.Png, .. header, .. end]));
        Assert.Null(PngMetadata.Without([.. Photographs.Png, .. picture, .. end]));
        Assert.Null(PngMetadata.Without([.. Photographs.Png, .. header, .. Chunk("XXXX", "critical"), .. picture, .. end]));
        Assert.Null(PngMetadata.Without([.. Photographs.Png, 0xFF, 0xFF, 0xFF, 0xFF, .. header[4..], .. picture, .. end]));
    }

    [Fact]
    public void Webp_FromAnotherProgram_KeepsThePictureByteForByteAndWhichWayUp()
    {
        Assert.Equal(["VP8X", "VP8 ", "EXIF", "XMP "], WebpChunks(WebpTaken).Select(chunk => chunk.Type));

        var bare = WebpMetadata.Without(WebpTaken)!;

        Assert.Equal(["VP8X", "VP8 ", "EXIF"], WebpChunks(bare).Select(chunk => chunk.Type));
        Assert.Equal(Hex(WebpChunks(WebpPlain).Single()), Hex(WebpChunks(bare)[1]));
        Assert.Equal(Oriented(6), WebpChunks(bare)[2].Bytes[8..]);
        Assert.Equal((0x0C, 0x08), (WebpTaken[20], bare[20]));
        Assert.Equal(WebpTaken[21..30], bare[21..30]);
        Assert.Equal(bare.Length - 8, BinaryPrimitives.ReadInt32LittleEndian(bare.AsSpan(4)));
        Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(bare), StringComparison.Ordinal);
        Assert.Equal(bare, WebpMetadata.Without(bare));
        Assert.Equal(WebpPlain, WebpMetadata.Without(WebpPlain));
    }

    [Fact]
    public void Webp_MovingPictures_KeepTheirFramesAndNothingStrangeInThem()
    {
        byte[] Frame(byte[] strange) => Part("ANMF", [.. new byte[16], .. Part("ALPH", [1]), .. strange, .. Part("VP8 ", [1, 2, 3])]);
        byte[] extended = Part("VP8X", [0x3E, 0, 0, 0, 5, 0, 0, 3, 0, 0]), calm = Part("VP8X", [0x32, 0, 0, 0, 5, 0, 0, 3, 0, 0]);
        byte[] colour = Part("ICCP", [7]), moving = Part("ANIM", new byte[6]);

        var bare = WebpMetadata.Without(
            [
                .. Riff([
                    .. extended, .. colour, .. moving, .. Frame(Part("GPS ", "GPS"u8.ToArray())), .. Frame([]),
                    .. Part("gpsX", "GPS"u8.ToArray()), .. Part("XMP ", "GPS"u8.ToArray())]), .. "GPS"u8]);

        Assert.Equal(Riff([.. calm, .. colour, .. moving, .. Frame([]), .. Frame([])]), bare!);
    }

    [Theory]
    [InlineData("")]
    [InlineData("Exif\0\0")]
    public void Webp_ExifWithAndWithoutTheMarkOfAJpeg_IsRead(string mark)
    {
        var bare = WebpMetadata.Without(Riff(
            [.. Part("VP8X", [0x08, 0, 0, 0, 5, 0, 0, 3, 0, 0]), .. Part("VP8L", [1]), .. Part(
                "EXIF", [.. Encoding.ASCII.GetBytes(mark), .. Oriented(8)])]));

        Assert.Equal(Oriented(8), WebpChunks(bare!)[2].Bytes[8..]);
    }

    [Fact]
    public void Webp_BrokenOffOrWithoutAPicture_IsRefused()
    {
        for (var length = 0; length < WebpTaken.Length; length++)
        {
            Assert.Null(WebpMetadata.Without(WebpTaken.AsSpan(0, length)));
        }

        Assert.Null(WebpMetadata.Without(Riff(Part("EXIF", [1, 2]))));
        Assert.Null(WebpMetadata.Without(Riff(Part("ANMF", new byte[15]))));
        Assert.Null(WebpMetadata.Without(Riff(Part("VP8X", [0x08]))));
        Assert.Null(WebpMetadata.Without(Riff([.. "VP8 "u8, 0xFF, 0xFF, 0xFF, 0xFF, 0])));
    }

    private const string ZlibCrc = "D6674B69";

    // TIFF 6.0: big-endian, the directory at 8, one field (274, SHORT, one value), no further directory.
    private static byte[] Oriented(byte way) => [0x4D, 0x4D, 0, 42, 0, 0, 0, 8, 0, 1, 1, 18, 0, 3, 0, 0, 0, 1, 0, way, 0, 0, 0, 0, 0, 0];

    private static string Hex((string Type, byte[] Bytes) chunk) => Convert.ToHexString(chunk.Bytes);

    private static byte[] Of(byte[] png, string type) => PngChunks(png).Single(chunk => chunk.Type == type).Bytes;

    /// <summary>A chunk of a PNG whose check sum nobody asks for.</summary>
    private static byte[] Chunk(string type, string data) =>
        [0, 0, 0, (byte)data.Length, .. Encoding.ASCII.GetBytes(type + data), 1, 2, 3, 4];

    private static byte[] Part(string name, byte[] data) =>
        [.. Encoding.ASCII.GetBytes(name), (byte)data.Length, (byte)(data.Length >> 8), 0, 0, .. data, .. new byte[data.Length & 1]];

    private static byte[] Riff(byte[] chunks) =>
        [.. "RIFF"u8, (byte)(chunks.Length + 4), (byte)((chunks.Length + 4) >> 8), 0, 0, .. "WEBP"u8, .. chunks];

    private static List<(string Type, byte[] Bytes)> PngChunks(byte[] png)
    {
        var chunks = new List<(string, byte[])>();
        for (var at = 8; at < png.Length;)
        {
            var length = 12 + BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
            chunks.Add((Encoding.ASCII.GetString(png, at + 4, 4), png[at..(at + length)]));
            at += length;
        }

        return chunks;
    }

    private static List<(string Type, byte[] Bytes)> WebpChunks(byte[] webp)
    {
        var chunks = new List<(string, byte[])>();
        for (var at = 12; at < webp.Length;)
        {
            var length = BinaryPrimitives.ReadInt32LittleEndian(webp.AsSpan(at + 4));
            chunks.Add((Encoding.ASCII.GetString(webp, at, 4), webp[at..(at + 8 + length)]));
            at += 8 + length + (length & 1);
        }

        return chunks;
    }
}
