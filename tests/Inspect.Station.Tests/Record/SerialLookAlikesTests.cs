using Inspect.Station.Record;

namespace Inspect.Station.Tests.Record;

/// <summary>Serials that a person may take for one another. Common practice of engraved and handwritten codes, no source.</summary>
public sealed class SerialLookAlikesTests
{
    [Theory]
    [InlineData("7K2M0419", "7K2M0419")]
    [InlineData("7k2m-o4 l9", "7K2M0419")]
    [InlineData("BOSSZIL", "8055211")]
    [InlineData("７Ｋ", "7K")]
    [InlineData("--", "")]
    public void Fold_SerialAsRead_IsTheTextToSearchBy(string serial, string folded) => Assert.Equal(folded, SerialLookAlikes.Fold(serial));
}
