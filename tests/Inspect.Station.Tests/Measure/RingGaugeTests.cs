using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Instruments;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Measure;

/// <summary>A hall that has a ring gauge: one tick in place of a figure, kept as the gauge's limits. Common practice, no source.</summary>
public sealed class RingGaugeTests
{
    private const string Limits = "26.704 to 27.002 in";

    private static readonly (string, string)[] Goes = TypedBall.With(("size.circumference", ""), ("size.circumferenceGauge", Limits));

    [Fact]
    public async Task Ring_InUseAtTheTable_IsATickInPlaceOfTheCircumferenceAndIsRecordedWithItsName()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var without = await director.GetPage(TypedBall.Page);
        using var unlimited = await director.Add(("kind", "ring-gauge"), ("name", "Ring 1"));
        using var reversed = await director.Add(
            ("kind", "ring-gauge"), ("name", "Ring 1"), ("ringCircumference", "27.002 to 26.704 in"));
        await director.Added(("kind", "ring-gauge"), ("name", "Ring 1"), ("ringCircumference", Limits));
        await director.Uses(("ring-gauge", "Ring 1"));

        var page = await director.GetPage(TypedBall.Page);
        var record = await director.RecordForm(page, Goes);
        var shown = await director.GetPage($"/inspections/{(string)record["number"]!}");

        Assert.Null(without.QuerySelector("[data-go-for]"));
        Assert.Contains("Enter the limits of the two rings", await Refusal(unlimited), StringComparison.Ordinal);
        Assert.Contains("\"27.002 to 26.704 in\" is not what a gauge has", await Refusal(reversed), StringComparison.Ordinal);
        Assert.Equal("size.circumference", Assert.Single(page.QuerySelectorAll("[data-go-for]")).GetAttribute("data-go-for"));
        Assert.Equal(Limits, (string?)record["sheet"]!["size"]!["circumferenceGauge"]);
        var finding = record["verdict"]!["findings"]!.AsArray().Single(each => (string?)each!["rule"] == "circumference")!;
        Assert.Equal(("pass", Limits), ((string?)finding["outcome"], (string?)finding["measured"]));
        var recorded = station.Services.GetRequiredService<InspectionLookup>().ByNumber(new InspectionNumber("LANTERN", 1))!.Inspection;
        Assert.Equal("Ring 1", recorded.Observations.Single(each => each.Path == "size.circumferenceGauge").Instrument);
        Assert.Contains("Circumference by the ring gauge26.704 to 27.002 in", shown.Body!.TextContent, StringComparison.Ordinal);

        static async Task<string> Refusal(HttpResponseMessage answer) => (await answer.Read()).QuerySelector(".summary")!.TextContent;
    }

    [Fact]
    public async Task Ring_OfARecordThatIsTakenBack_IsTickedAgain()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var record = await client.RecordForm(await client.GetPage(TypedBall.Page), Goes);

        var page = await client.GetPage($"/inspections/{(string)record["number"]!}");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Once more"));
        var form = await client.GetPage(taken.Headers.Location!.ToString());

        Assert.True(form.QuerySelector<IHtmlInputElement>("[name='size.circumferenceGauge']")!.IsChecked);
    }
}
