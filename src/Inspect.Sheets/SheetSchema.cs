using System.Text.Json.Nodes;

namespace Inspect.Sheets;

/// <summary>The JSON schema (draft 2020-12) of a sheet, made from the <see cref="Catalogue"/>.</summary>
/// <remarks>The reader is the stricter of the two: it also reads what the texts say, and checks what belongs together.</remarks>
public static class SheetSchema
{
    private const int LongestText = 120;

    // The one object that may be null, which says that the ball is not a house ball.
    private const string NullableObject = "houseBall";

    /// <summary>The schema as JSON.</summary>
    public static string Text { get; } = Write().ToJsonString();

    private static JsonObject Write()
    {
        var sheet = Group();
        sheet["description"] = "What was measured of one ball and one grip. What was not measured or looked at is left out. "
            + "A sheet that is judged by itself names an authority or an edition; one that is recorded gets them from its event.";
        foreach (var member in Catalogue.All)
        {
            var steps = member.Path.Split('.');
            var group = steps[..^1].Aggregate(sheet, Inner);
            group["properties"]![member.Name] = Of(member);
            if (member.IsRequired)
            {
                group["required"]!.AsArray().Add(member.Name);
            }
        }

        return sheet;
    }

    private static JsonObject Inner(JsonObject group, string step)
    {
        var members = group["properties"]!.AsObject();
        if (step.EndsWith("[]", StringComparison.Ordinal))
        {
            return members[step[..^2]]!["items"]!.AsObject();
        }

        if (members[step] is not JsonObject inner)
        {
            members[step] = inner = Group();
            inner["type"] = step == NullableObject ? new JsonArray("object", "null") : "object";
        }

        return inner;
    }

    private static JsonObject Group() => new()
    {
        ["type"] = "object",
        ["required"] = new JsonArray(),
        ["additionalProperties"] = false,
        ["properties"] = new JsonObject(),
    };

    private static JsonObject Of(SheetMember member)
    {
        var one = One(member);
        var described = member.IsList ? new JsonObject { ["type"] = "array", ["maxItems"] = member.Most, ["items"] = one } : one;
        described["description"] = member.Label;
        if (member.IsList && member.Kind is MemberKind.Text or MemberKind.Word)
        {
            described["uniqueItems"] = true;
        }

        // Without a rule or a piece these lists say nothing; no hole, no digit and no reading say something.
        if (member.IsList && (member.Kind == MemberKind.Text || (member.Kind == MemberKind.Objects && member.IsOfHole)))
        {
            described["minItems"] = 1;
        }

        return described;
    }

    private static JsonObject One(SheetMember member) => member.Kind switch
    {
        MemberKind.Flag => new() { ["type"] = "boolean" },
        MemberKind.Count => new() { ["type"] = "integer", ["minimum"] = member.Range.Least, ["maximum"] = member.Range.Most },
        MemberKind.Word =>
            new() { ["type"] = "string", ["enum"] = new JsonArray([.. member.Words.Select(word => JsonValue.Create(word))]) },
        MemberKind.Day => new() { ["type"] = "string", ["format"] = "date", ["pattern"] = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" },
        MemberKind.Made => new() { ["type"] = "string", ["pattern"] = "^[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?$" },
        MemberKind.GaugeLimits => new() { ["type"] = "string", ["pattern"] = "^.+ to .+$", ["maxLength"] = LongestText },
        MemberKind.Objects => Group(),
        _ => new() { ["type"] = "string", ["minLength"] = 1, ["maxLength"] = LongestText },
    };
}
