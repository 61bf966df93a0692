using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Sheets.Readings;
using Json.Schema;

namespace Inspect.Sheets.Tests;

/// <summary>What the schema of a sheet takes is what the reader takes, member by member.</summary>
public class SheetSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(SheetSchema.Text);

    private static readonly Dictionary<Quantity, string> Readings = new()
    {
        [Quantity.Weight] = "15 lb",
        [Quantity.Imbalance] = "1 oz",
        [Quantity.Length] = "1 in",
        [Quantity.SignedLength] = "1 in",
        [Quantity.Angle] = "10 deg",
        [Quantity.Hardness] = "74",
        [Quantity.Temperature] = "72 F",
        [Quantity.Duration] = "95 min",
        [Quantity.Roughness] = "30 uin",
    };

    public static TheoryData<string> Members => [.. Catalogue.All.Select(member => member.Path)];

    [Theory]
    [MemberData(nameof(Members))]
    public void Schema_MemberWithAGoodValue_IsTakenByBoth(string path)
    {
        var member = Catalogue.All.Single(member => member.Path == path);
        var sheet = With(path, Good(member));

        Assert.True(IsRead(sheet) && IsValid(sheet), sheet);
    }

    [Theory]
    [MemberData(nameof(Members))]
    public void Schema_MemberWithAnyOtherValue_IsTakenByBothOrByNone(string path)
    {
        foreach (var value in (string[])["null", "1.5", "-1", "\"\"", "true", "{}", "[]", "[1]", "[null]", $"\"{new string('a', 200)}\""])
        {
            var sheet = With(path, JsonNode.Parse(value));

            Assert.True(IsRead(sheet) == IsValid(sheet), $"{sheet}: the reader says {IsRead(sheet)}, the schema {IsValid(sheet)}");
        }
    }

    [Theory]
    [MemberData(nameof(Members))]
    public void Schema_MemberUnknownBesideIt_IsTakenByNone(string path)
    {
        var sheet = With(path[..(path.LastIndexOf('.') + 1)] + "unknown", "x");

        Assert.False(IsRead(sheet) || IsValid(sheet), sheet);
    }

    [Theory]
    [InlineData("grip", false)]
    [InlineData("ball", false)]
    [InlineData("ball.houseBall", true)]
    [InlineData("ball.declared", false)]
    [InlineData("circumstances", false)]
    public void Schema_NullForAnObject_IsTakenByBothOrByNone(string path, bool isTaken)
    {
        var sheet = With(path, null);

        Assert.Equal((isTaken, isTaken), (IsRead(sheet), IsValid(sheet)));
    }

    private static bool IsRead(string sheet) => SheetReader.Read(Encoding.UTF8.GetBytes(sheet), []) is not null;

    private static bool IsValid(string sheet)
    {
        using var document = JsonDocument.Parse(sheet);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static JsonNode Good(SheetMember member)
    {
        JsonNode one = member.Kind switch
        {
            MemberKind.Reading => Readings[member.Quantity!.Value],
            MemberKind.Flag => true,
            MemberKind.Count => member.Range.Least,
            MemberKind.Word => member.Words[0],
            MemberKind.Day or MemberKind.Made => "2026-05-17",
            MemberKind.GaugeLimits => "26.704 to 27.002 in",
            MemberKind.Objects => new JsonObject { ["kind"] = "grip" },
            _ => member.Path == "edition" ? "us-national/2020-08-01" : "us-national",
        };
        return member.Path.EndsWith("pieces", StringComparison.Ordinal) ? new JsonArray(
            new JsonObject()) : member.IsList ? new JsonArray(one) : one;
    }

    /// <summary>The least sheet that has this value at this path.</summary>
    private static string With(string path, JsonNode? value)
    {
        var sheet = new JsonObject { ["play"] = "2026-05-17", ["authority"] = "us-national" };
        var at = sheet;
        var steps = path.Split('.');
        foreach (var step in steps[..^1])
        {
            var inner = new JsonObject();
            var isHole = step == "holes[]";
            if (isHole)
            {
                inner["kind"] = steps[1] switch { "in" => "vent", "device" => "balance", _ => "grip" };
            }

            at[step.Replace("[]", "", StringComparison.Ordinal)] =
                step.EndsWith("[]", StringComparison.Ordinal) ? new JsonArray(inner) : inner;
            at = inner;
        }

        at[steps[^1]] = value;
        return sheet.ToJsonString();
    }
}
