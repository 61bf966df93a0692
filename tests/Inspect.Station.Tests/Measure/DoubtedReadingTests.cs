using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Measure;

/// <summary>A reading that a ball can hardly have gives no verdict until it is confirmed, and its record says that it was. Common
/// practice, no source.</summary>
public sealed class DoubtedReadingTests
{
    private static readonly (string, string)[] Mistyped = TypedBall.With(("size.diameters[0]", "85.8"));
    private static readonly (string, string)[] Confirmed = [.. Mistyped, ("sure.size.diameters[0]", "85.8")];

    [Fact]
    public async Task FarReading_GivesNoVerdict_UntilItIsConfirmed()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var doubted = await client.SendLive(page, Mistyped);
        using var confirmed = await client.SendLive(page, Confirmed);
        using var corrected = await client.SendLive(page, [.. TypedBall.Legal, ("sure.size.diameters[0]", "85.8")]);

        var asks = await doubted.Read();
        Assert.Equal("No verdict yet", asks.QuerySelector(".calm")!.TextContent);
        Assert.Null(asks.QuerySelector(".verdict, .reason, #record"));
        Assert.Contains(
            "\"85.8\" is far from what a bowling ball has here (8 to 9 in)", asks.LiveFault("size.diameters[0]"), StringComparison.Ordinal);
        Assert.False(asks.QuerySelector<IHtmlInputElement>("[name='sure.size.diameters[0]'][value='85.8']")!.IsChecked);
        var said = await confirmed.Read();
        Assert.Equal("Record as Fail", said.QuerySelector("#record")!.TextContent);
        Assert.True(said.QuerySelector<IHtmlInputElement>("[name='sure.size.diameters[0]']")!.IsChecked);
        Assert.Null((await corrected.Read()).QuerySelector("[name^='sure.']"));
    }

    [Fact]
    public async Task FarReading_Recorded_SaysThatItWasConfirmed_AlsoAfterItWasTakenBack()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var record = await client.RecordForm(await client.GetPage(TypedBall.Page), Confirmed);
        var number = (string)record["number"]!;

        var page = await client.GetPage($"/inspections/{number}");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Once more"));
        var again = await client.RecordForm(await client.GetPage(taken.Headers.Location!.ToString()));

        Assert.Contains("Diameter: 85.8 in", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("confirmed as read so", page.Body.TextContent, StringComparison.Ordinal);
        Assert.Equal("size.diameters[0]", Assert.Single(record["confirmed"]!.AsArray())!.GetValue<string>());
        Assert.True(JsonNode.DeepEquals(record["confirmed"], again["confirmed"]));
    }
}
