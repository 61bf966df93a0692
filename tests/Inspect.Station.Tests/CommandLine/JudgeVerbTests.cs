using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

public sealed class JudgeVerbTests : IDisposable
{
    private const string Legal =
        """{"play":"2024-03-10","authority":"us-national","plan":["gross-weight","left-right"],"weights":{"gross":"15 lb","leftRight":"1 oz"},"holes":[{"kind":"grip","digit":"thumb"}]}""";

    private readonly string _folder = Directory.CreateTempSubdirectory("judge").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Run_OneLegalSheet_WritesOneVerdictAndEndsWithZero()
    {
        var (exit, lines, error) = Judge(Legal);

        Assert.Equal(0, exit);
        Assert.Equal("pass", (string?)Assert.Single(lines)["outcome"]);
        Assert.Empty(error);
    }

    [Fact]
    public void Run_SheetPrintedOverManyLines_IsOneSheet()
    {
        var printed = JsonNode.Parse(Legal)!.ToJsonString(new() { WriteIndented = true });

        var (exit, lines, _) = Judge($"{printed}\n\n{printed}\n{Legal}\r\n{Legal}{Legal}");

        Assert.Equal(0, exit);
        Assert.Equal(5, lines.Count);
    }

    [Theory]
    [InlineData("1 oz", 0)]
    [InlineData("3.25 oz", 1)]
    public void Run_Outcome_SetsTheExit(string leftRight, int wanted)
    {
        var (exit, _, _) = Judge(Legal.Replace("1 oz", leftRight, StringComparison.Ordinal));

        Assert.Equal(wanted, exit);
    }

    [Fact]
    public void Run_FailsHoldsAndFaults_EndWithTheGravest()
    {
        var fail = Legal.Replace("1 oz", "4 oz", StringComparison.Ordinal);
        var hold = Legal.Replace("15 lb", "9 lb", StringComparison.Ordinal);
        var broken = Legal.Replace("1 oz", "1,5 oz", StringComparison.Ordinal);

        Assert.Equal(2, Judge(Legal, hold).Exit);
        Assert.Equal(1, Judge(hold, fail, Legal).Exit);
        Assert.Equal(3, Judge(fail, broken, hold).Exit);
    }

    [Fact]
    public void Run_FaultySheet_NamesEveryFaultAndJudgesTheRest()
    {
        var faulty = Legal.Replace("1 oz", "1,5 oz", StringComparison.Ordinal).Replace("15 lb", "15 lbs 17 oz", StringComparison.Ordinal)
            .Replace("\"plan\"", "\"plans\"", StringComparison.Ordinal);

        var (exit, lines, _) = Judge(Legal, faulty, Legal);

        Assert.Equal(3, exit);
        Assert.Equal(["pass", null, "pass"], lines.Select(line => (string?)line["outcome"]));
        Assert.Equal(["plans", "weights.gross", "weights.leftRight"], Paths(lines[1]).Order(StringComparer.Ordinal));
        Assert.Equal(["error"], lines[1].Select(member => member.Key));
    }

    [Theory]
    [InlineData("{\"play\":\"2024-03-10\"")]
    [InlineData("{\"play\":\"2024-03-10")]
    [InlineData("{\"play\":")]
    [InlineData("{\"play\":[")]
    [InlineData("hello")]
    [InlineData("42")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}}")]
    [InlineData("{} // why")]
    [InlineData("{\"play\":\"\\ud800\"}")]
    [InlineData("{\"\\udc00\":1}")]
    public void Run_BrokenLineAmongSheets_IsOneErrorLineInItsPlace(string broken)
    {
        var (exit, lines, _) = Judge(Legal, broken, Legal);

        Assert.Equal(3, exit);
        Assert.Equal(["pass", null, "pass"], lines.Select(line => (string?)line["outcome"]));
        Assert.NotEmpty(Paths(lines[1]));
    }

    [Fact]
    public void Run_BrokenPrintedSheet_IsOneErrorLineAndTheNextIsJudged()
    {
        var broken = "{\n  \"play\": \"2024-03-10\",\n  \"holes\": [\n    { \"kind\": \"grip\" }\n    { \"kind\": \"vent\" }\n  ]\n}\n";

        var (exit, lines, _) = Judge(broken + Legal);

        Assert.Equal(3, exit);
        Assert.Equal([null, "pass"], lines.Select(line => (string?)line["outcome"]));
    }

    /// <summary>A sheet on each line, and lines of every kind that is none: no line is swallowed by the one before it.</summary>
    [Fact]
    public void Run_LineForEachSheet_AnswersEveryLineInItsPlace()
    {
        string[] bad =
        [
            "{\"play\":", "{", "hello", "\"text\"", "[{", "{]", "\u0001", "{\"play\":\"2024-03-10\"", "{\"a\":{\"b\":[}",
            new string('[', 100), "-", "{\"a\":1}}", "\\",
        ];
        var lines = bad.Concat(bad.Reverse()).Concat(bad.SelectMany(line => new[] { Legal, line })).Append(Legal).ToArray();

        var (exit, answers, error) = Judge(lines);

        Assert.Equal((3, ""), (exit, error));
        Assert.Equal(lines.Select(line => line == Legal ? "pass" : null), answers.Select(answer => (string?)answer["outcome"]));
    }

    [Fact]
    public void Run_BytesThatAreNoText_AreOneErrorLineInTheirPlace()
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        byte[] lines = [.. Encoding.UTF8.GetBytes(Legal), .. "\n{\"play\":\""u8, 0xff, .. "\"}\n"u8, .. Encoding.UTF8.GetBytes(Legal)];

        var exit = JudgeVerb.Run(["-"], new MemoryStream(lines), output, error);

        Assert.Equal(3, exit);
        Assert.Equal(
            [true, false, true],
            output.ToString().TrimEnd().Split('\n').Select(line => line.StartsWith("{\"outcome\":\"pass\"", StringComparison.Ordinal)));
    }

    /// <summary>What no edition that was read can have: a rule that cannot be worked out. Its cause is printed once, the ball is
    /// held.</summary>
    [Fact]
    public void Judge_RuleThatFails_HoldsAndItsCauseIsPrintedOnce()
    {
        var (output, error) = (new StringWriter(), new StringWriter());

        var exit = JudgeVerb.Judge(BrokenEdition.Editions(), ["-"], Utf8($"{Legal}\n{Legal}"), output, error);

        Assert.Equal(2, exit);
        Assert.StartsWith(
            $"Rule gross-weight of {BrokenEdition.Id} failed, so it holds the ball: System.", error.ToString(), StringComparison.Ordinal);
        Assert.Single(error.ToString().Split("failed, so it holds the ball").Skip(1));
        Assert.DoesNotContain("Exception", output.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"authority\":\"us-national\"", "\"authority\":\"moon\"", "authority")]
    [InlineData("\"authority\":\"us-national\"", "\"edition\":\"us-national/2019-01-01\"", "edition")]
    [InlineData("\"left-right\"", "\"left-rihgt\"", "plan[1]")]
    [InlineData("\"authority\":\"us-national\",", "", "authority")]
    [InlineData("\"plan\"", "\"authority\":\"us-national\",\"plan\"", "authority")]
    [InlineData("\"gross\"", "\"gross\":\"16 lb\",\"gross\"", "weights.gross")]
    [InlineData("\"kind\"", "\"kind\":\"grip\",\"kind\"", "holes[0].kind")]
    public void Run_SheetNamingWhatIsNotKnown_SaysWhere(string from, string to, string path)
    {
        var (exit, lines, _) = Judge(Legal.Replace(from, to, StringComparison.Ordinal));

        Assert.Equal(3, exit);
        Assert.Equal([path], Paths(Assert.Single(lines)));
    }

    [Fact]
    public void Run_DayBeforeTheFirstEdition_HoldsWithoutEdition()
    {
        var (exit, lines, _) = Judge(Legal.Replace("2024-03-10", "2014-05-06", StringComparison.Ordinal));

        Assert.Equal(2, exit);
        Assert.Equal("""{"outcome":"hold","cause":"no-edition","findings":[]}""", lines[0].ToJsonString());
    }

    [Fact]
    public void Run_NamedEdition_IsTakenWhateverTheDay()
    {
        var (exit, lines, _) = Judge(
            Legal.Replace("\"authority\":\"us-national\"", "\"edition\":\"international/2019-01-01\"", StringComparison.Ordinal));

        Assert.Equal(2, exit);
        Assert.Equal("international/2019-01-01", (string?)lines[0]["edition"]!["id"]);
    }

    [Fact]
    public void Run_SeveralFiles_AreJudgedInOrder()
    {
        var (first, second) = (Path.Combine(_folder, "a.json"), Path.Combine(_folder, "b.jsonl"));
        File.WriteAllText(first, "\uFEFF" + Legal.Replace("1 oz", "4 oz", StringComparison.Ordinal));
        File.WriteAllText(second, $"{Legal}\n{Legal}\n");

        var (exit, lines, _) = Run([first, "-", second], Legal);

        Assert.Equal(1, exit);
        Assert.Equal(["fail", "pass", "pass", "pass"], lines.Select(line => (string?)line["outcome"]));
    }

    [Fact]
    public void Run_FileThatIsNotThere_IsAnErrorLineAndTheRestIsJudged()
    {
        var (exit, lines, _) = Run([Path.Combine(_folder, "none.json"), "-"], Legal);

        Assert.Equal(3, exit);
        Assert.Equal(["$"], Paths(lines[0]));
        Assert.Equal("pass", (string?)lines[1]["outcome"]);
    }

    [Fact]
    public void Run_NoSheetAtAll_IsNeverAPass()
    {
        var (exit, lines, _) = Judge("\n  \n");

        Assert.Equal(3, exit);
        Assert.Equal(["$"], Paths(Assert.Single(lines)));
    }

    [Theory]
    [InlineData()]
    [InlineData("--fast", "-")]
    [InlineData("-", "--rulesets")]
    [InlineData("-", "--rulesets", "/no/such/folder")]
    public void Run_CommandThatCannotBe_SaysSoAndJudgesNothing(params string[] args)
    {
        var (exit, lines, error) = Run(args, Legal);

        Assert.Equal(3, exit);
        Assert.Empty(lines);
        Assert.NotEmpty(error);
    }

    [Fact]
    public void Run_LettersBeyondAscii_AreWrittenAsTheyAre()
    {
        var output = new StringWriter();

        JudgeVerb.Run(["-"], Utf8(Legal.Replace("1 oz", "½ öz", StringComparison.Ordinal)), output, TextWriter.Null);

        Assert.Contains("½ öz", output.ToString(), StringComparison.Ordinal);
    }

    private static IEnumerable<string> Paths(JsonObject line) =>
        line["error"]!["faults"]!.AsArray().Select(fault => (string)fault!["path"]!);

    private static (int Exit, List<JsonObject> Lines, string Error) Judge(params string[] lines) => Run(["-"], string.Join('\n', lines));

    private static (int Exit, List<JsonObject> Lines, string Error) Run(string[] args, string input)
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        var exit = JudgeVerb.Run(args, Utf8(input), output, error);
        var text = output.ToString();
        Assert.True(text.Length == 0 || text.EndsWith('\n'));
        return (
            exit, text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!.AsObject()).ToList(),
            error.ToString());
    }

    private static MemoryStream Utf8(string text) => new(Encoding.UTF8.GetBytes(text));
}
