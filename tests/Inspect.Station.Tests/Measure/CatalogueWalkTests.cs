using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Readings;
using Inspect.Station.Desk;
using Inspect.Station.Slip;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Instruments;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Measure;

/// <summary>Every member of the catalogue goes the whole way: form, record, register, page, story, slip, desk and charts, and
/// back into the form.</summary>
/// <remarks>
/// What is typed is made of the catalogue itself, so a further member needs no line here, unless its kind alone cannot say what fits it.
/// The ball is of no material that exists, and the event's own rules limit every quantity: the test asks whether each arrives.
/// </remarks>
public sealed partial class CatalogueWalkTests(CatalogueWalk walk) : IClassFixture<CatalogueWalk>
{
    // An event names an authority or an edition; that of the walk names its authority.
    public static TheoryData<string> Members => [.. Catalogue.All.Select(member => member.Path).Where(path => path != "edition")];

    public static TheoryData<RuleQuantity> Limited => [.. Catalogue.Terms.Select(term => term.Quantity)];

    [Theory]
    [MemberData(nameof(Members))]
    public void Member_IsFoundInEveryPlace(string path)
    {
        var member = Catalogue.At(path)!;
        Has(member, "the record", ball => ball.Record["sheet"]!);
        Has(member, "the register", ball => ball.Body["sheet"]!);
        Has(member, "the record made anew of the form that was filled with it", ball => ball.Again["sheet"]!);
        if (member is { IsTyped: true, Kind: not MemberKind.Objects })
        {
            IsShown(member, "the inspection's page", ball => ball.Page.QuerySelectorAll(".written > div"), "dt", "dd");
            IsShown(member, "the ball's story", ball => ball.Story.QuerySelectorAll(".story details tbody tr"), "th", "td");
        }
    }

    [Theory]
    [MemberData(nameof(Limited))]
    public async Task Limit_OnTheQuantity_IsFoundInEveryPlace(RuleQuantity quantity)
    {
        foreach (var ball in walk.Balls)
        {
            var findings = Findings(ball, quantity);
            var limited = findings.Select(finding => Catalogue.At((string)finding["path"]!)!);
            Assert.Empty(Catalogue.AllOf(quantity).Except(limited).Select(member => member.Path));
            foreach (var finding in findings)
            {
                // A rule that was met has no line at the desk, nor on the slip of a ball that was not passed.
                if ((string)finding["outcome"]! != "pass")
                {
                    Assert.Contains(Close(TitleOf(finding)), ball.Slip, StringComparison.Ordinal);
                    Assert.Contains(Close(SlipPaper.Settable((string)finding["reason"]!)), ball.Slip, StringComparison.Ordinal);
                    Assert.Contains((string)ball.Record["number"]!, await walk.AtTheDesk(finding), StringComparison.Ordinal);
                }
            }
        }

        // A day is judged and not drawn.
        var judged = walk.Balls.SelectMany(ball => Findings(ball, quantity))
            .Where(_ => Catalogue.Of(quantity).Kind == MemberKind.Reading).CountBy(TitleOf).ToDictionary();
        var counted = walk.Charts.QuerySelectorAll("[aria-label='The readings as a table'] tbody tr")
            .Select(row => (Rule: row.Children[0].Words(), Count: int.Parse(row.Children[2].Words(), CultureInfo.InvariantCulture)));
        Assert.Equal(
            judged,
            counted.Where(row => judged.ContainsKey(row.Rule)).GroupBy(row => row.Rule)
                .ToDictionary(rows => rows.Key, rows => rows.Sum(row => row.Count)));
    }

    private static List<JsonObject> Findings(WalkedBall ball, RuleQuantity quantity) =>
        [.. ball.Record["verdict"]!["findings"]!.AsArray().Select(finding => finding!.AsObject()).Where(finding =>
            finding["limit"] is not null && finding["measured"] is not null
                && Catalogue.AllOf(quantity).Contains(Catalogue.At((string?)finding["path"] ?? "")))];

    private static string TitleOf(JsonObject finding) => Explanation.RuleTitle((string)finding["rule"]!);

    private void Has(SheetMember member, string place, Func<WalkedBall, JsonNode> sheetOf)
    {
        foreach (var ball in walk.Balls.Where(_ => member.IsTyped))
        {
            var (typed, found) = (Of(ball.Sheet), Of(sheetOf(ball)));
            Assert.True(typed.SequenceEqual(found), $"{place} has {string.Join(", ", found)}, not {string.Join(", ", typed)}");
        }

        Assert.True(walk.Balls.Any(ball => Of(sheetOf(ball)).Any()), $"{place} has none of them");

        IEnumerable<(string Path, string Value)> Of(JsonNode sheet) =>
            Leaves(sheet).Where(leaf => Belongs(leaf.Path, member)).OrderBy(leaf => leaf.Path, StringComparer.Ordinal);
    }

    private void IsShown(SheetMember member, string place, Func<WalkedBall, IEnumerable<IElement>> rowsOf, string head, string cell)
    {
        foreach (var ball in walk.Balls)
        {
            var all = rowsOf(ball).Select(row => (Label: row.QuerySelector(head)!.Words(), Text: row.QuerySelector(cell)!.Words()));
            var rows = all.Where(row => member.IsOfHole
                ? !Catalogue.All.Any(other => other.Line is { } line && string.Equals(line, row.Label, StringComparison.OrdinalIgnoreCase))
                : string.Equals(row.Label, LabelOf(member), StringComparison.OrdinalIgnoreCase)).ToList();
            // Which hole it is stands in the label of all its rows; a gripping hole is called by its digit.
            Assert.All(Leaves(ball.Sheet).Where(leaf => Belongs(leaf.Path, member) && leaf.Value != "grip"), leaf => Assert.True(
                rows.Select(row => member.IsOfHole ? $"{row.Label}: {row.Text}" : row.Text)
                    .Any(text => text.Contains(leaf.Value, StringComparison.OrdinalIgnoreCase)),
                $"{place} does not show {leaf}"));
        }
    }

    private static string LabelOf(SheetMember member) => SheetLines.LabelOf(
        Catalogue.All.Any(other => other.Path == $"{Parent(member)}.azimuth") ? Parent(member) : member.Path);

    private static string Parent(SheetMember member) => member.Path[..Math.Max(member.Path.LastIndexOf('.'), 0)];

    private static bool Belongs(string path, SheetMember member) => member.Kind == MemberKind.Objects
        ? Index().Replace(path, "[]").StartsWith(member.Path, StringComparison.Ordinal)
        : Catalogue.At(path) == member;

    /// <summary>All that stands in a sheet, by its path, in its order; yes and no in words.</summary>
    private static IEnumerable<(string Path, string Value)> Leaves(JsonNode? node, string path = "") => node switch
    {
        JsonObject members => members.SelectMany(member => Leaves(member.Value, path.Length == 0 ? member.Key : $"{path}.{member.Key}")),
        JsonArray list => list.Index().SelectMany(item => Leaves(item.Item, $"{path}[{item.Index}]")),
        _ => [(path, node!.ToString() switch { "true" => "yes", "false" => "no", var text => text })],
    };

    internal static string Close(string text) => Space().Replace(text, "");

    [GeneratedRegex(@"\[\d+\]")]
    private static partial Regex Index();

    [GeneratedRegex(@"\s")]
    private static partial Regex Space();
}

/// <summary>One ball of the walk and what became of it at each place.</summary>
internal sealed record WalkedBall(
    JsonObject Sheet, JsonNode Record, JsonNode Body, IDocument Page, IDocument Story, string Slip)
{
    /// <summary>The record made of the form that was filled with this one, after it was taken back.</summary>
    public JsonNode Again { get; set; } = default!;
}

/// <summary>A station at which balls with every member were typed in and recorded, under rules that limit every quantity.</summary>
public sealed partial class CatalogueWalk : IAsyncLifetime, IDisposable
{
    // What the kind of a member alone cannot say.
    private static readonly Dictionary<string, string> Samples = new()
    {
        ["play"] = SampleSheets.Today,
        // Left and right are asked of a hole only where they are not forward and reverse.
        ["holes[].position.azimuth"] = "275.5 deg",
        ["surface.roughness"] = "18 µin, 19 µin",
        ["size.diameterGauge"] = "221 to 223 mm",
        ["size.circumferenceGauge"] = "681 to 683 mm",
    };

    // One hole has all that a hole can have, but for what only another kind has.
    private static readonly (string Kind, string[] Members)[] OtherHoles =
        [("vent", ["in", "diameter"]), ("balance", ["device", "depth", "depthTo"])];

    private readonly StationFixture _station = new();

    internal List<WalkedBall> Balls { get; } = [];

    internal IDocument Form { get; private set; } = default!;

    internal IDocument Charts { get; private set; } = default!;

    public async Task InitializeAsync()
    {
        using var director = await _station.Client("director");
        await Set(director, "supplement", ("supplement", Supplement().ToJsonString()));
        await Set(director, "terms", ("decision", "simple"), ("freezeMinutes", "10"), ("share.roundness", "0"));
        await director.Added(
            ("kind", "ring-gauge"), ("name", "Ring 1"), ("ringDiameter", Samples["size.diameterGauge"]),
            ("ringCircumference", Samples["size.circumferenceGauge"]));
        await director.Uses(("ring-gauge", "Ring 1"));
        foreach (var distance in (string[])["arc", "angle"])
        {
            Form = await director.GetPage(TypedBall.Page);
            Balls.Add(await Walked(director, SheetWith(distance)));
        }

        Charts = await director.GetPage("/desk/events/LANTERN/charts");
        foreach (var ball in Balls)
        {
            var undo = ball.Page.QuerySelector<IHtmlFormElement>("details.undo form")!;
            using var taken = await director.Send(undo, ("reason", "To walk it back"));
            ball.Again = await director.RecordForm(await director.GetPage(taken.Headers.Location!.ToString()));
        }
    }

    public async Task DisposeAsync() => await _station.DisposeAsync();

    public void Dispose() => _station.Dispose();

    /// <summary>The inspections that the desk finds by a rule and what it said, as a table.</summary>
    internal async Task<string> AtTheDesk(JsonObject finding)
    {
        using var director = await _station.Client("director");
        return await director.GetStringAsync($"/api/inspections.csv?event=LANTERN&rule={finding["rule"]}&ruleOutcome={finding["outcome"]}");
    }

    private async Task<WalkedBall> Walked(HttpClient client, JsonObject sheet)
    {
        var faults = new List<Sheets.Json.Fault>();
        var read = SheetReader.Read(Encoding.UTF8.GetBytes(sheet.ToJsonString()), faults, new SheetDefaults("us-national"));
        Assert.Empty(faults);
        var fields = SheetFields.Of(read!, []).SelectMany(field => field.Value.Select(value => (field.Key, Value: Bare(field.Key, value))))
            .Where(CanBeSent).ToArray();
        Assert.All(fields, field => Assert.NotNull(Form.QuerySelector($"[name='{field.Key}']")));
        // The samples are told apart by their numbers, which no ball has: each is confirmed to be read so.
        var record = await client.RecordForm(
            Form,
            [.. fields, .. fields.Select(field => ($"sure.{field.Key}", field.Value))]);
        var number = (string)record["number"]!;
        var page = await client.GetPage($"/inspections/{number}");
        var entry = Sequence().Match(page.DocumentElement.OuterHtml).Groups[1].Value;
        using var pdf = PdfDocument.Open(await client.GetByteArrayAsync($"/api/inspections/{number}/slip.pdf"));
        return new WalkedBall(
            sheet,
            record,
            JsonNode.Parse(await client.GetByteArrayAsync($"/api/register/entries/{entry}.json"))!,
            page,
            await client.GetPage(page.QuerySelector("a[href^='/desk/balls/']")!.GetAttribute("href")!),
            CatalogueWalkTests.Close(string.Concat(pdf.GetPages().Select(each => each.Text))));
    }

    // A box that is not ticked sends nothing: a hole that is no indentation says so by that.
    private bool CanBeSent((string Name, string Value) field)
    {
        var inputs = Form.QuerySelectorAll($"[name='{field.Name}']");
        return inputs.Length == 0
            || inputs.Any(input => input is not IHtmlInputElement { Type: "radio" or "checkbox" } box || box.Value == field.Value);
    }

    /// <summary>As it is typed at the table: without the unit that the field adds.</summary>
    private static string Bare(string field, string value) => FormFields.MemberOf(field)?.Unit switch
    {
        null or Unit.ShoreD => value,
        Unit.PoundOunce => value.Replace(" lb ", "-", StringComparison.Ordinal).Replace(" oz", "", StringComparison.Ordinal),
        { } unit => value.EndsWith($" {Units.Mark(unit)}", StringComparison.Ordinal) ? value[..^(Units.Mark(unit).Length + 1)] : value,
    };

    /// <summary>A sheet with every member that is typed; a place is told by an arc or by an angle.</summary>
    private static JsonObject SheetWith(string distance)
    {
        var other = distance == "arc" ? "angle" : "arc";
        var sheet = new JsonObject();
        var holes = new JsonArray([
            new JsonObject { ["kind"] = "grip", ["digit"] = "thumb" },
            .. OtherHoles.Select(hole => new JsonObject { ["kind"] = hole.Kind }),
        ]);
        foreach (var (i, member) in Catalogue.All.Index()
            .Where(each => each.Item is { IsTyped: true, Kind: not MemberKind.Objects } && each.Item.Name != other))
        {
            if (!member.IsOfHole)
            {
                Put(sheet, member.Path, Sample(member, i, distance));
                continue;
            }

            var name = member.Path["holes[].".Length..];
            var others = OtherHoles.Index().Where(each => each.Item.Members.Contains(name)).ToList();
            foreach (var hole in others.Select(each => each.Index + 1).Concat(name is "kind" or "digit" or "in" or "device" ? [] : [0]))
            {
                Put((JsonObject)holes[hole]!, name, Sample(member, i + hole, distance));
            }
        }

        sheet["holes"] = holes;
        return sheet;
    }

    private static void Put(JsonObject place, string path, JsonNode value)
    {
        var steps = path.Split('.');
        foreach (var step in steps[..^1])
        {
            var isList = step.EndsWith("[]", StringComparison.Ordinal);
            var next = isList ? place[step[..^2]]?[0] : place[step];
            if (next is null)
            {
                next = new JsonObject();
                place[isList ? step[..^2] : step] = isList ? new JsonArray(next) : next;
            }

            place = (JsonObject)next;
        }

        place[steps[^1]] = value;
    }

    private static JsonNode Sample(SheetMember member, int i, string ball)
    {
        if (Samples.TryGetValue(member.Path, out var sample))
        {
            return member.IsList ? new JsonArray([.. sample.Split(", ").Select(each => JsonValue.Create(each))]) : sample;
        }

        return member.Kind switch
        {
            MemberKind.Reading when member.IsList => new JsonArray(Text(i), Text(i + 50)),
            MemberKind.Reading => Text(i),
            MemberKind.Flag => true,
            MemberKind.Count => (member.Range.Least + member.Range.Most) / 2,
            MemberKind.Word when member.IsList => new JsonArray([.. member.Words.Select(word => JsonValue.Create(word))]),
            MemberKind.Word => member.Words[0],
            MemberKind.Text => $"Walk {i} {ball}",
            MemberKind.Made => "2023-04",
            _ => throw new InvalidOperationException($"Say what can stand at {member.Path}."),
        };

        // No two members have the same number.
        string Text(int number) => member.Unit == Unit.PoundOunce ? FormattableString.Invariant($"15 lb 1.{number} oz")
            : $"{(1 + (number / 100m)).ToString("0.000", CultureInfo.InvariantCulture)} {Units.Mark(member.Unit!.Value)}".TrimEnd();
    }

    /// <summary>Rules of the event for every quantity that the edition limits seldom or never, each tighter than any of its own.</summary>
    private JsonObject Supplement()
    {
        var edition = _station.Services.GetRequiredService<EditionLibrary>().InForceOn("us-national", StationClock.Today)!;
        var limited = edition.Rules.OfType<Rule.Limited>().Where(rule => rule is { When: null, Unless: null })
            .Select(rule => rule.Quantity).ToHashSet();
        return new JsonObject
        {
            ["supplement"] = "every-limit",
            ["version"] = "2026-11-01",
            ["title"] = "A limit on everything",
            ["authority"] = edition.Authority,
            ["sources"] = JsonNode.Parse("""{ "rules": { "title": "Rules of the Lantern Open", "basis": "official" } }"""),
            ["rules"] = new JsonArray([.. Catalogue.Terms.Where(term => !limited.Contains(term.Quantity)).Select(RuleOf)]),
        };
    }

    private static JsonObject RuleOf(RuleTerm term)
    {
        var member = Catalogue.Of(term.Quantity);
        var rule = new JsonObject
        {
            ["rule"] = Upper().Replace($"own-limit-of-{term.Word}", letter => $"-{letter.Value.ToLowerInvariant()}"),
            ["kind"] = "limit",
            ["quantity"] = term.Word,
            ["source"] = "rules",
            ["pass"] = "It is {limit}.",
            ["fail"] = "It is not {limit}.",
        };
        if (member.IsOfHole)
        {
            rule["holes"] = new JsonArray("grip");
        }

        if (member.IsList)
        {
            rule["statistic"] = "average";
        }

        var (bound, limit) = member.Kind == MemberKind.Made
            ? ("notBefore", "2024-01-01")
            : ("atMost", $"0.1 {Units.Mark(term.PartUnit!.Value)}".TrimEnd());
        rule[bound] = limit;
        return rule;
    }

    private static async Task Set(HttpClient director, string what, params (string Name, string Value)[] answers)
    {
        var page = await director.GetPage("/events/LANTERN/rules");
        var form = page.QuerySelector<IHtmlFormElement>($"main form[action='/events/LANTERN/rules/{what}']")!;
        using var answer = await director.Send(form, answers);
        Assert.Equal(System.Net.HttpStatusCode.Found, answer.StatusCode);
    }

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Upper();

    [GeneratedRegex(@"/register/entries/(\d+)")]
    private static partial Regex Sequence();
}
