using System.Text.Json;
using Inspect.Rules.Judging;
using static Inspect.Rules.Tests.Judging.SmallEdition;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Order and absence of the verdict's members are defined by this project.</summary>
public class VerdictJsonTests
{
    private const string Rules = """
        {"rule":"gross-weight","kind":"limit","quantity":"gross","atMost":"16 lb"},{"rule":"left-right","kind":"limit","quantity":"leftRight","atMost":"3 oz"}
        """;

    private const string Weighed = """ "weights":{"gross":"15 lb"} """;

    [Fact]
    public void Write_Finding_HasItsMembersInOrderAndNoneWithoutAValue()
    {
        var findings = VerdictJson.Write(Judged(Rules, Weighed))["findings"]!.AsArray();
        Assert.Equal(
            ["rule", "subject", "path", "outcome", "measured", "limit", "margin", "reason", "reference"],
            findings[0]!.AsObject().Select(member => member.Key));
        Assert.Equal(["rule", "subject", "path", "outcome", "cause", "limit", "reason", "reference"], findings[1]!.AsObject().Select(
            member => member.Key));
    }

    [Fact]
    public void Write_WholeVerdict_LeavesOutWhatHasNoValue()
    {
        Assert.Equal(["outcome", "edition", "findings"], VerdictJson.Write(Judged(Rules, Weighed)).Select(member => member.Key));
        Assert.Equal(["outcome", "edition", "findings", "notChecked"],
            VerdictJson.Write(Judged(Rules, Weighed + ",\"plan\":[\"left-right\"]")).Select(member => member.Key));
        Assert.Equal("""{"outcome":"hold","cause":"no-edition","findings":[]}""", VerdictJson.Write(Judge.WithoutEdition()).ToJsonString());
    }

    [Fact]
    public void Write_SameSheetTwice_IsTheSameBytesAndReadsBack()
    {
        var written = VerdictJson.Write(Judged(Rules, Weighed));
        Assert.Equal(written.ToJsonString(), VerdictJson.Write(Judged(Rules, Weighed)).ToJsonString());
        var read = VerdictReader.Read(JsonSerializer.SerializeToElement(written), VerdictJson.WordsOnly);
        Assert.Equal(written.ToJsonString(), VerdictJson.Write(read).ToJsonString());
    }
}
