using Inspect.Station.Record;
using Inspect.Station.Slip;

namespace Inspect.Station.Tests.Slip;

/// <summary>What the QR code carries: scheme and host have no case (RFC 3986, sections 3.1 and 3.2.2), a path has.</summary>
public class ScanAddressTests
{
    [Theory]
    [InlineData("https://inspect.lantern.example", "HTTPS://INSPECT.LANTERN.EXAMPLE/S/")]
    [InlineData("http://127.0.0.1:5210/", "HTTP://127.0.0.1:5210/S/")]
    [InlineData("https://lantern.example/Balls/", "HTTPS://LANTERN.EXAMPLE/Balls/S/")]
    public void Of_PublicUrl_IsInCapitalsWhereCaseMeansNothing(string publicUrl, string start)
    {
        var code = SlipCode.Draw();
        Assert.Equal(start + code, ScanAddress.Of(new Uri(publicUrl), code));
    }

    [Fact]
    public void Of_NoWebAddress_IsRefusedWithASentence()
    {
        var fault = Assert.Throws<ArgumentException>(() => ScanAddress.Of(new Uri("ftp://lantern.example"), SlipCode.Draw()));
        Assert.Contains("'ftp://lantern.example/' is no web address", fault.Message);
    }
}
