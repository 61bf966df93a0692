using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Measure;

/// <summary>A form that is filled beforehand: with all that was typed where a record was taken back or put aside, with what is
/// known where a ball comes again.</summary>
public class TakenUpAgainTests
{
    [Fact]
    public async Task TakenBack_FillsAllOfItInAgain_AndMakesTheSameSheet()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var first = await client.RecordForm(await client.GetPage(TypedBall.Page), [
            .. TypedBall.Whole.Where(field => field.Name != "size.circumference"), ("weights.topBottom.turned", "1 t"),
            ("hole.middle.depth.again", "2 1/8"),
            ("left.0.path", "size.circumference"), ("left.0.reason", "The tape tore."),
        ]);
        var page = await client.GetPage($"/inspections/{first["number"]}");
        using var taken = await client.Send(
            page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "The tag was forgotten"));

        var form = await client.GetPage(taken.Headers.Location!.ToString());
        Assert.Contains("These are the readings", form.QuerySelector("main p.card")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(("3/8 in", "reverse"), (form.Typed("hole.thumb.pitch.south"), form.Typed("hole.thumb.pitch.south.side")));
        Assert.Equal(("1 1/4 oz", "1 oz", "top"), (
            form.Typed("weights.topBottom"), form.Typed("weights.topBottom.turned"),
            form.QuerySelector<IHtmlInputElement>("[name='weights.topBottom.turned.side']:checked")!.Value));
        Assert.Equal(("2 in", "2 1/8 in"), (form.Typed("hole.middle.depth"), form.Typed("hole.middle.depth.again")));
        Assert.Equal(("size.circumference", "The tape tore."), (form.Typed("left.0.path"), form.Typed("left.0.reason")));
        var second = await client.RecordForm(form, []);

        Assert.Equal("1 1/8 oz", second["sheet"]!["weights"]!["topBottom"]!.GetValue<string>());
        Assert.True(JsonNode.DeepEquals(first["sheet"], second["sheet"]), second["sheet"]!.ToJsonString());
    }

    // A program names the digits in any order, a browser sends the boxes in that of the page.
    [Fact]
    public async Task TakenBack_FromAProgramWithItsOwnOrderOfDigits_IsRecordedAsItStands()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["grip"]!["digits"] = new JsonArray("ring", "thumb", "middle");
        var page = await client.GetPage($"/inspections/{(await client.Recorded(sheet))["number"]}");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Tag forgotten"));

        var form = await client.GetPage(taken.Headers.Location!.ToString());
        using var recorded = await client.Send(form.QuerySelector<IHtmlFormElement>("main form.station")!, ("act", "record"));

        Assert.Equal("/inspections/LANTERN-0002", recorded.Headers.Location?.ToString());
    }

    [Fact]
    public async Task TakenBack_WithMoreThanTheFormHolds_SaysSoAndDropsNothingUnseen()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["holes"]!.AsArray().Add(JsonNode.Parse(
            """{ "kind": "vent", "in": "thumb", "diameter": "1/8 in", "position": { "arc": "2 in", "azimuth": "250 deg" } }"""));
        var number = (await client.Recorded(sheet))["number"]!.GetValue<string>();
        var page = await client.GetPage($"/inspections/{number}");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Another ball"));

        var form = await client.GetPage(taken.Headers.Location!.ToString());

        Assert.Contains("more than this form has fields for", form.QuerySelector("main p.card")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("", form.Typed("weights.gross"));
    }

    [Fact]
    public async Task MeasuredAgain_HasWhatIsDeclaredAndNothingMeasured()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var first = await client.RecordForm(
            await client.GetPage(TypedBall.Page), [.. TypedBall.Whole, ("ball.oilAbsorption", "45"), ("ball.highPerformanceCore", "no")]);

        foreach (var address in new[] { $"{TypedBall.Page}?supersedes={first["number"]}", $"{TypedBall.Page}?ball={first["ball"]}" })
        {
            var form = await client.GetPage(address);
            Assert.Equal(["2.480 in", "0.050 in", "0.015 in", "45 min"],
                new[] { "ball.declared.rg", "ball.declared.differential", "ball.declared.intermediate", "ball.oilAbsorption" }.Select(
                    name => form.Typed(name)));
            Assert.True(form.QuerySelector<IHtmlInputElement>("[name='ball.highPerformanceCore'][value=no]")!.IsChecked);
            Assert.All(
                form.QuerySelectorAll<IHtmlInputElement>("[name^='hole.'], [name^='weights.'], [name^='ball.pin'], "
                    + "[name^='ball.massBias'], [name^='ball.gravityMark']").Where(field => field.Type == "text"),
                field => Assert.Equal("", field.Value));
            Assert.Null(form.QuerySelector("[name='holes.depthTo']:checked"));
        }
    }

    [Fact]
    public async Task PutAside_KeepsAllOfIt()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var aside = await client.Send(await client.GetPage(TypedBall.Page), [.. TypedBall.Whole, ("act", "aside")]);

        var taken = await client.GetPage(
            (await client.GetPage(aside.Headers.Location!.ToString())).QuerySelector(".unfinished a.button")!.GetAttribute("href")!);

        Assert.Equal(("1", "31.5 deg", "left"), (
            taken.Typed("hole.thumb.pieces[2].diameter"), taken.Typed("hole.ring.position.arc"),
            taken.Typed("hole.middle.pitch.east.side")));
        var record = await client.RecordForm(taken, []);
        Assert.Equal("2 1/2 in", record["sheet"]!["holes"]![0]!["pieces"]![1]!["depth"]!.GetValue<string>());
    }
}
