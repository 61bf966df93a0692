using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>Described balls through the verb.</summary>
/// <remarks>
/// Source of every expected figure: derived for this project by two routes that share neither code nor coordinates (a quadrature about the
/// hole's axis and a 30-digit integration about the ball's centre); they agree to one unit of the last digit printed.
/// </remarks>
public sealed class MassVerbTests
{
    private const string Even15 = "\"diameter\":\"8.5 in\",\"gross\":\"15 lb\",\"interior\":\"uniform\"";
    private const string Even16 = "\"diameter\":\"8.5 in\",\"gross\":\"16 lb\",\"interior\":\"uniform\"";
    private const string Layered = "\"diameter\":\"8.5 in\",\"interior\":{\"layers\":[{\"radius\":\"4.25 in\",\"density\":\"1.18 g/cm3\"},"
        + "{\"radius\":\"3.65 in\",\"density\":\"0.80 g/cm3\"},{\"radius\":\"2.60 in\",\"density\":\"2.30 g/cm3\"}]}";

    private static readonly Dictionary<string, string[]> Cases = new()
    {
        ["C01"] = [AtAngle(0, 0, "1 in", "3 in")],
        ["C02"] = [AtAngle(45, 0, "1 in", "3 in")],
        ["C03"] = [AtAngle(90, 0, "1 in", "3 in")],
        ["C04a"] = [AtAngle(90, 0, "31/32 in", "1 in")],
        ["C04d"] = [AtAngle(90, 0, "31/32 in", "4 in")],
        ["C06"] = [AtArc("3 in", 0, "31/32 in", "2 3/4 in", "0 in", "3/8 in")],
        ["C08"] = [AtAngle(60, 120, "1/4 in", "2 in")],
        ["C09"] = [AtAngle(90, 0, "1 in", "3 in", "cone118")],
        ["C11"] = [AtAngle(90, 0, "1 in", "1/2 in")],
        ["C12"] =
        [
            AtArc("2.35 in", 106, "31/32 in", "2 in", "0 in", "3/8 in"),
            AtArc("2.35 in", 74, "15/16 in", "2 in", "0 in", "-3/8 in"),
            AtArc("2.5 in", 270, "1 1/16 in", "2 3/4 in", "3/8 in", "0 in"),
        ],
    };

    [Theory]
    [InlineData("C01", 1.7499591, 1.8666230, "0 0 -4.799512", "2.6863542 2.6863542 2.6976196", 0.0112654, 0.0112654)]
    [InlineData("C02", 1.7499591, 1.8666230, "-3.393767 0 -3.393767", "2.6863542 2.6863542 2.6976196", 0.0112654, 0.0112654)]
    [InlineData("C03", 1.7499591, 1.8666230, "-4.799512 0 0", "2.6863542 2.6863542 2.6976196", 0.0112654, 0.0112654)]
    [InlineData("C04a", 0.5425258, 0.5786942, "-2.030738 0 0", "2.6850023 2.6850023 2.6909301", 0.0059277, 0.0059277)]
    [InlineData("C04d", 2.1929304, 2.3391258, "-4.918946 0 0", "2.6892469 2.6892469 2.7001009", 0.0108540, 0.0108540)]
    [InlineData("C06", 1.5052016, 1.6055484, "-2.805631 -0.180670 -3.291471", "2.6858450 2.6858563 2.6962566", 0.0104115, 0.0104003)]
    [InlineData("C08", 0.0732413, 0.0781241, "0.103057 -0.178500 -0.119000", "2.6877273 2.6877273 2.6883458", 0.0006185, 0.0006185)]
    [InlineData("C09", 1.6325509, 1.7413876, "-4.639524 0 0", "2.6858751 2.6858751 2.6969688", 0.0110937, 0.0110937)]
    [InlineData("C11", 0.2844594, 0.3034233, "-1.135762 0 0", "2.6859890 2.6859890 2.6895031", 0.0035140, 0.0035140)]
    [InlineData("C12", 3.9250549, 4.1867252, "0.037899 -0.356217 -10.049076", "2.6794396 2.6874599 2.7008326", 0.0213929, 0.0133727)]
    public void Run_EvenBall_GivesTheCheckValues(
        string name, double removed15, double removed16, string moment, string principal, double total, double intermediate)
    {
        var ball = Computed(Even15, name);

        Near(removed15, Sum(ball), 1e-6 * removed15);
        Near(removed16, Sum(Computed(Even16, name)), 1e-6 * removed16);
        Near(240 - removed15, (double)ball["massOz"]!, 1e-6);
        Near(moment, ball["momentOzIn"]!, 2e-6);
        Near(principal, ball["principalRgIn"]!, 1e-6);
        Near(total, (double)ball["totalDifferentialIn"]!, 2e-6);
        Near(intermediate, (double)ball["intermediateDifferentialIn"]!, 2e-6);
    }

    [Theory]
    [InlineData("C01", 2.0910054, "0 0 -5.109634", "2.5231761 2.5231761 2.5348787", 0.0117027)]
    [InlineData("C04d", 2.9435350, "-5.533990 0 0", "2.5278697 2.5278697 2.5393930", 0.0115232)]
    [InlineData("C06", 1.7119391, "-2.890827 -0.242553 -3.391420", "2.5222616 2.5222780 2.5328823", 0.0106207)]
    [InlineData("C12", 3.9477108, "0.032588 0.250276 -9.351608", "2.5157387 2.5237381 2.5358193", 0.0200806)]
    public void Run_LayeredBall_GivesTheCheckValues(string name, double removed, string moment, string principal, double total)
    {
        var ball = Computed(Layered, name);

        Near(removed, Sum(ball), 1e-6 * removed);
        Near(238.4207787 - removed, (double)ball["massOz"]!, 2e-6);
        Near(moment, ball["momentOzIn"]!, 2e-6);
        Near(principal, ball["principalRgIn"]!, 1e-6);
        Near(total, (double)ball["totalDifferentialIn"]!, 2e-6);
    }

    [Theory]
    [InlineData("2.480 in", "0.050 in", "0 in", 0, 0, 2.5704743, "2.4931182 2.5289303 2.5289303", 0.0358121, 0)]
    [InlineData("2.480 in", "0.050 in", "0 in", 45, 0, 2.1999356, "2.4844416 2.5295097 2.5361618", 0.0517202, 0.0066521)]
    [InlineData("2.480 in", "0.050 in", "0.015 in", 90, 90, 2.1020877, "2.4791372 2.5258691 2.5295914", 0.0504542, 0.0037222)]
    [InlineData("2.550 in", "0.040 in", "0 in", 90, 0, 1.8567358, "2.5487309 2.5890599 2.5998903", 0.0511594, 0.0108304)]
    public void Run_BallFittedToDeclaredFigures_GivesTheCheckValues(
        string rg, string differential, string intermediate, int angle, int azimuth, double removed, string principal, double total,
            double middle)
    {
        var ball = Line($"{{{Declared(rg, differential, intermediate)},\"holes\":[{AtAngle(angle, azimuth, "1 in", "3 in")}]}}");

        Near(removed, Sum(ball), 2e-7);
        Near(principal, ball["principalRgIn"]!, 1e-6);
        Near(total, (double)ball["totalDifferentialIn"]!, 2e-6);
        Near(middle, (double)ball["intermediateDifferentialIn"]!, 2e-6);
        Assert.False(ball.ContainsKey("interior"));
    }

    /// <summary>The moment of the undrilled ball is what was declared, and its radii of gyration stay the declared ones.</summary>
    [Fact]
    public void Run_DeclaredTopMoment_ShiftsTheCentreOfGravity()
    {
        var declared = Declared("2.480 in", "0.050 in", "0.015 in")
            .Replace("\"rg\"", "\"top\":\"12.75 oz.in\",\"rg\"", StringComparison.Ordinal);
        var ball = Line($"{{{declared},\"holes\":[]}}");

        Near("0 0 12.75", ball["momentOzIn"]!, 1e-6);
        Near("0 0 0.053125", ball["cgIn"]!, 1e-8);
        Near("2.480 2.515 2.530", ball["principalRgIn"]!, 1e-6);
    }

    /// <summary>No core exists at such a radius of gyration under the usual cover.</summary>
    [Fact]
    public void Run_DeclaredFiguresWithoutAcceptableRoot_SaysUniformAndWhy()
    {
        var ball = Line($"{{{Declared("2.68 in", "0.020 in", "0 in")},\"holes\":[{AtAngle(0, 0, "1 in", "2 in")}]}}");

        Assert.Equal("uniform", (string?)ball["interior"]);
        Assert.Contains("core", (string?)ball["reason"], StringComparison.Ordinal);
    }

    [Fact]
    public void Run_OneHole_WritesNumbersWithTheirClosingZeros()
    {
        var output = new StringWriter();
        var ball = Encoding.UTF8.GetBytes($"{{{Even15},\"holes\":[{Cases["C01"][0]}]}}");
        MassVerb.Run(["-"], new MemoryStream(ball), output, TextWriter.Null);

        Assert.Equal(
            """{"removedOz":[1.7499591],"massOz":238.2500409,"momentOzIn":[0.000000,0.000000,-4.799512],"cgIn":[0.00000000,0.00000000,-0.02014485],"rgIn":["""
            + """2.6863542,2.6863542,2.6976196],"principalRgIn":[2.6863542,2.6863542,2.6976196],"totalDifferentialIn":"""
            + """0.0112654,"intermediateDifferentialIn":0.0112654}""" + "\n",
            output.ToString());
    }

    /// <summary>The rim lies R − √(R² − a²) below the surface, 0.0277 in for 31/32 in on a ball of 8 1/2 in.</summary>
    [Fact]
    public void Run_DepthToTheRim_IsDeeperByTheCapBelowIt()
    {
        var cap = 4.25 - Math.Sqrt((4.25 * 4.25) - (31.0 / 64 * (31.0 / 64)));
        var axis = AtAngle(90, 0, "31/32 in", (2 + cap).ToString("F10", CultureInfo.InvariantCulture) + " in");
        var rim = AtAngle(90, 0, "31/32 in", "2 in").Replace("\"axis\"", "\"rim\"", StringComparison.Ordinal);

        Near(Sum(Line($"{{{Even15},\"holes\":[{axis}]}}")), Sum(Line($"{{{Even15},\"holes\":[{rim}]}}")), 1e-7);
    }

    [Fact]
    public void Run_HolesThatMeet_AreRemovedOnceAndSumToWhatIsGone()
    {
        var hole = AtAngle(30, 0, "1 in", "2 in");
        var ball = Line($"{{{Even15},\"holes\":[{hole},{hole}]}}");

        Near(0, (double)ball["removedOz"]![1]!, 1e-7);
        Near(240, (double)ball["massOz"]! + Sum(ball), 1e-6);
    }

    [Fact]
    public void Run_SeveralFaults_TellsThemAllWithTheirPaths()
    {
        var (exit, lines, _) = Run(["-"], """
            {"diameter":"8,5 in","weight":"15 lb","interior":{"declared":{"rg":"2.48 in","differential":"0.05 in","intermediate":"0.06 in","top":"3 oz"}},
            "holes":[{"arc":"3 in","angle":"40 deg","azimuth":"400 deg","diameter":"1 in","depth":"-2 in"},
            {"arc":"3 in","azimuth":"0 deg","diameter":"6 in","depth":"2 in","pitch":{"up":"1 in"},"bottom":"round"},{"angle":"190 deg","azimuth":"0 deg","diameter":"1 in","depth":"2 in"}]}
            """);

        Assert.Equal(3, exit);
        Assert.Equal(
            ["diameter", "gross", "holes[0].angle", "holes[1].bottom", "holes[1].pitch.up", "holes[2].angle", "interior.declared.top",
                "weight"],
            Paths(Assert.Single(lines)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Run_FaultsOfPhysics_HaveThePathOfTheirHole()
    {
        var (exit, lines, _) = Run(["-"], $$"""
            {{{Even15}},"holes":[{{AtAngle(10, 0, "1 in", "2 in")}},{{AtArc("14 in", 0, "1 in", "2 in", "0 in", "0 in")}},
            {{AtAngle(10, 0, "1 in", "8.5 in")}},{{AtArc("2 in", 0, "1 in", "2 in", "0 in", "4 in")}},{{AtAngle(10, 0, "6 in", "-1 in")}}]}
            """);

        Assert.Equal(3, exit);
        Assert.Equal(
            ["holes[1].arc", "holes[2].depth", "holes[3].pitch", "holes[4].depth", "holes[4].diameter"], Paths(Assert.Single(lines))
            .Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(
        """{"diameter":"8.5 in","gross":"15 lb","interior":{"layers":[{"radius":"4.25 in","density":"1.2 g/cm3"}]},"holes":[]}""", "gross")]
    [InlineData(
        """{"diameter":"8.5 in","interior":{"layers":[{"radius":"4.2 in","density":"1.2 g/cm3"}]},"holes":[]}""",
        "interior.layers[0].radius")]
    [InlineData(
        """{"diameter":"8.5 in","interior":{"layers":[{"radius":"4.25 in","density":"1.2"}]},"holes":[]}""", "interior.layers[0].density")]
    [InlineData("""{"diameter":"8.5 in","interior":{"layers":[]},"holes":[]}""", "interior.layers")]
    [InlineData("""{"diameter":"8.5 in","gross":"15 lb","interior":"solid","holes":[]}""", "interior")]
    [InlineData("""{"diameter":"8.5 in","gross":"15 lb","interior":{},"holes":[]}""", "interior")]
    [InlineData("""{"diameter":"8.5 in","gross":"15 lb","holes":[]}""", "interior")]
    [InlineData("""{"diameter":"8.5 in","gross":"15 lb","interior":"uniform"}""", "holes")]
    [InlineData("""{"diameter":"8.5 in","gross":"15 lb","interior":"uniform","holes":[],"holes":[]}""", "holes")]
    [InlineData(
        """{"diameter":"8.5 in","gross":"15 lb","interior":"uniform","holes":[{"arc":"1 in","diameter":"1 in","depth":"1 in"}]}""",
        "holes[0].azimuth")]
    [InlineData(
        """{"diameter":"8.5 in","gross":"15 lb","interior":{"declared":{"rg":"4 in","differential":"0 in"}},"holes":[]}""",
        "interior.declared.rg")]
    [InlineData("[]", "$")]
    public void Run_OneFault_NamesItsPath(string json, string path)
    {
        var (exit, lines, _) = Run(["-"], json);

        Assert.Equal(3, exit);
        Assert.Equal([path], Paths(Assert.Single(lines)));
    }

    [Fact]
    public void Run_OneBrokenBallAmongOthers_StillComputesTheRest()
    {
        var good = $"{{{Even15},\"holes\":[]}}";
        var (exit, lines, _) = Run(["-"], $"{good}\n{{\"diameter\":\n{good}\n");

        Assert.Equal(3, exit);
        Assert.Equal([false, true, false], lines.Select(line => line.ContainsKey("error")));
        Assert.Equal(0, Run(["-"], good).Exit);
    }

    [Theory]
    [InlineData()]
    [InlineData("--rulesets", "x")]
    public void Run_CommandThatCannotBe_SaysSo(params string[] args)
    {
        var (exit, lines, error) = Run(args, "");

        Assert.Equal(3, exit);
        Assert.Empty(lines);
        Assert.NotEmpty(error);
    }

    private static string AtAngle(int angle, int azimuth, string diameter, string depth, string bottom = "flat") =>
        $"{{\"angle\":\"{angle} deg\",\"azimuth\":\"{azimuth} "
            + $"deg\",\"diameter\":\"{diameter}\",\"depth\":\"{depth}\",\"depthTo\":\"axis\",\"bottom\":\"{bottom}\"}}";

    private static string AtArc(string arc, int azimuth, string diameter, string depth, string south, string east) =>
        $"{{\"arc\":\"{arc}\",\"azimuth\":\"{azimuth} "
            + $"deg\",\"diameter\":\"{diameter}\",\"depth\":\"{depth}\",\"pitch\":{{\"south\":\"{south}\",\"east\":\"{east}\"}}}}";

    private static string Declared(string rg, string differential, string intermediate) =>
        "\"diameter\":\"8.5 in\",\"gross\":\"15 lb\",\"interior\":{\"declared\":{"
        + $"\"rg\":\"{rg}\",\"differential\":\"{differential}\",\"intermediate\":\"{intermediate}\"}}}}";

    private static JsonObject Computed(string ball, string name) => Line($"{{{ball},\"holes\":[{string.Join(',', Cases[name])}]}}");

    private static JsonObject Line(string json)
    {
        var (exit, lines, _) = Run(["-"], json);
        Assert.True(exit == 0, lines[0].ToJsonString());
        return Assert.Single(lines);
    }

    private static double Sum(JsonObject ball) => ball["removedOz"]!.AsArray().Sum(each => (double)each!);

    private static void Near(double expected, double actual, double within) =>
        Assert.True(Math.Abs(expected - actual) <= within, FormattableString.Invariant($"{actual} is not within {within} of {expected}."));

    private static void Near(string expected, JsonNode actual, double within)
    {
        foreach (var (wanted, given) in expected.Split(' ').Zip(actual.AsArray()))
        {
            Near(double.Parse(wanted, CultureInfo.InvariantCulture), (double)given!, within);
        }
    }

    private static IEnumerable<string> Paths(JsonObject line) =>
        line["error"]!["faults"]!.AsArray().Select(fault => (string)fault!["path"]!);

    private static (int Exit, List<JsonObject> Lines, string Error) Run(string[] args, string input)
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        var exit = MassVerb.Run(args, new MemoryStream(Encoding.UTF8.GetBytes(input)), output, error);
        return (exit, output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!.AsObject())
            .ToList(), error.ToString());
    }
}
