using Inspect.Station.Slip;

namespace Inspect.Station.Tests.Slip;

/// <summary>The modules of a QR code (ISO/IEC 18004) and how many printer dots each has.</summary>
public class QrModulesTests
{
    // ISO/IEC 18004, capacity of the alphanumeric mode at level M.
    [Theory]
    [InlineData(2, 38)]
    [InlineData(3, 61)]
    [InlineData(5, 122)]
    [InlineData(8, 221)]
    [InlineData(10, 311)]
    [InlineData(12, 419)]
    public void Encode_CapitalAddress_TakesTheSmallestVersion(int version, int capacity)
    {
        var text = "HTTPS://".PadRight(capacity, 'A');
        Assert.Equal(version, QrModules.Encode(text).Version);
        Assert.Equal(version + 1, QrModules.Encode(text + "A").Version);
    }

    [Fact]
    public void Encode_SmallLetters_NeedsALargerCode() =>
        Assert.True(QrModules.Encode("HTTPS://".PadRight(61, 'a')).Version > QrModules.Encode("HTTPS://".PadRight(61, 'A')).Version);

    [Fact]
    public void Encode_Always_LeavesAQuietZoneOfFourModules()
    {
        var modules = QrModules.Encode("HTTPS://INSPECT.EXAMPLE/S/7K2M0419XQ3PAD");
        Assert.Equal(17 + (4 * modules.Version) + 8, modules.Size);
        Assert.Equal(4, modules.Runs.Min(run => run.Row));
        Assert.Equal(4, modules.Runs.Min(run => run.Column));
        Assert.Equal(modules.Size - 5, modules.Runs.Max(run => run.Row));
        Assert.Equal(modules.Size - 4, modules.Runs.Max(run => run.Column + run.Length));
    }

    [Fact]
    public void Runs_OfARow_NeverTouch() => Assert.All(
        QrModules.Encode("HTTPS://INSPECT.EXAMPLE/S/7K2M0419XQ3PAD").Runs.GroupBy(run => run.Row),
        row => Assert.All(row.Zip(row.Skip(1)), pair => Assert.True(pair.First.Column + pair.First.Length < pair.Second.Column)));

    // 203 dpi: 4 dots are 0.50 mm; 300 dpi: 5 dots are 0.42 mm. Common practice for printed slips, no source.
    [Theory]
    [InlineData(203, 4)]
    [InlineData(300, 5)]
    [InlineData(600, 10)]
    public void FewestDots_OfAPrinter_IsWholeAndReadable(int dotsPerInch, int dots) =>
        Assert.Equal(dots, QrModules.FewestDots(dotsPerInch));

    [Fact]
    public void DotsAModule_LittleRoom_KeepsToTheFewest()
    {
        var modules = QrModules.Encode("HTTPS://".PadRight(300, 'A'));
        Assert.Equal(4, modules.DotsAModule(203, 40));
    }
}
