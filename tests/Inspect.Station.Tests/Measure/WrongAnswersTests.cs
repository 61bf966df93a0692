using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Measure;

/// <summary>Something wrong in every field of the measuring form, one after the other: a sentence at the
/// field, and nothing else lost.</summary>
public class WrongAnswersTests
{
    // What a person can get wrong in a text field; maker, model and serial take what is engraved.
    private const string Wrong = "1,5 deep";

    // Rows that are like the one before them.
    private static readonly string[] Likewise =
        [
            "pieces[1]", "pieces[2]", "pieces[3]", "middle.pieces", "ring.pieces", "index.pieces", "little.pieces", "more2", "more3",
            "more4", "ring.p", "index.p", "little.p"];

    [Fact]
    public async Task EveryField_WithSomethingWrong_SaysSoAtTheFieldAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        var fields = page.QuerySelectorAll<IHtmlInputElement>("main form.table input")
            .Where(field => field.Type is not ("hidden" or "radio" or "checkbox") && !field.Name!.StartsWith(
                "left.", StringComparison.Ordinal))
            .Select(field => field.Name!).Except(["ball.maker", "ball.model", "ball.serial", "tag", "workDone", "table", "moveTo"])
            .Where(name => !Likewise.Any(again => name.Contains(again, StringComparison.Ordinal))).ToList();
        Assert.True(fields.Count > 25, $"The form has {fields.Count} fields to try.");

        foreach (var field in fields)
        {
            var typed = TypedBall.With((field, Wrong), ("ball.house", "yes"));
            using var live = await client.SendLive(page, typed);
            Assert.True(
                (await live.Read()).LiveFault(field) is { } sentence && sentence.Contains(Wrong, StringComparison.Ordinal),
                $"{field}: no sentence while typing.");

            using var answer = await client.Send(page, [.. typed, ("act", "judge")]);
            var shown = await answer.Read();
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
            Assert.Contains(Wrong, shown.FaultAt(shown.QuerySelector($"[name=\"{field}\"]")!.Id!), StringComparison.Ordinal);
            foreach (var (name, value) in typed)
            {
                Assert.True(Stands(shown, name, value), $"{field} was wrong, and {name} lost \"{value}\".");
            }
        }
    }

    private static bool Stands(IDocument page, string name, string value) =>
        page.QuerySelectorAll($"[name=\"{name}\"]").Any(field => field switch
    {
        IHtmlInputElement { Type: "radio" or "checkbox" } choice => choice.Value == value && choice.IsChecked,
        IHtmlInputElement input => input.Value == value,
        _ => false,
    });
}
