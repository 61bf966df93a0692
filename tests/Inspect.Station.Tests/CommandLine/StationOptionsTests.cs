using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

public class StationOptionsTests
{
    [Fact]
    public void TryParse_NothingGiven_IsATrialOnThisMachineOnly()
    {
        var options = Parse([], new() { ["XDG_DATA_HOME"] = "/home/ida/.data" });

        Assert.Equal("http://127.0.0.1:5210", options.Urls);
        Assert.Equal("/home/ida/.data/inspect/trial", options.DataFolder);
        Assert.True(options.IsTrial);
        Assert.True(options.Demo);
        Assert.Null(options.PublicUrl);
        Assert.Null(options.DemoPasscode);
        Assert.False(options.LogsJson);
    }

    [Fact]
    public void TryParse_ADataFolder_IsARealStationWithoutDemo()
    {
        var options = Parse(["--data", "/srv/inspect"]);

        Assert.Equal("/srv/inspect", options.DataFolder);
        Assert.False(options.IsTrial);
        Assert.False(options.Demo);
    }

    [Fact]
    public void TryParse_EveryOption_BothWaysOfWriting()
    {
        var options = Parse(
            [
                "--data=/srv/inspect", "--demo", "--urls", "http://0.0.0.0:80;http://[::1]:81",
                "--public-url=https://inspect.example.org/hall", "--rulesets", "/srv/rules", "--log=json", "--accept-loss"],
            new() { ["INSPECT_DEMO_PASSCODE"] = "three wet lanterns" });

        Assert.True(options.Demo);
        Assert.True(options.AcceptsLoss);
        Assert.Equal("http://0.0.0.0:80;http://[::1]:81", options.Urls);
        Assert.Equal("https://inspect.example.org/hall", options.PublicUrl!.ToString());
        Assert.Equal("/srv/rules", options.RulesetsFolder);
        Assert.True(options.LogsJson);
        Assert.Equal("three wet lanterns", options.DemoPasscode);
    }

    [Theory]
    [InlineData("\"--dta\" is not an option of the station: \"help\" lists them.", "--dta", "/srv")]
    [InlineData("\"extra\" is not an option of the station: \"help\" lists them.", "--demo", "extra")]
    [InlineData("\"--data\" needs a value after it.", "--data")]
    [InlineData("\"--data\" needs a value after it.", "--data", "--demo")]
    [InlineData("\"--urls\" needs a value after it.", "--urls=")]
    [InlineData("\"--empty\" begins the trial station anew; a station with --data keeps what it has.", "--data", "/srv/inspect", "--empty")]
    [InlineData("\"--demo\" is given twice: once is enough.", "--demo", "--demo")]
    [InlineData("\"xml\" is not a form of the log: give text or json.", "--log", "xml")]
    [InlineData("\"5210\" is not an address to listen on: give one such as http://127.0.0.1:5210.", "--urls", "5210")]
    [InlineData("\"inspect.example.org\" cannot be the public address: give one such as "
        + "https://inspect.example.org.", "--public-url", "inspect.example.org")]
    [InlineData("\"ftp://a.example\" cannot be the public address: give one such as "
        + "https://inspect.example.org.", "--public-url", "ftp://a.example")]
    public void TryParse_Unusable_SaysWhatWouldBeRight(string sentence, params string[] arguments)
    {
        Assert.False(StationOptions.TryParse(arguments, _ => null, out _, out var fault));
        Assert.Equal(sentence, fault);
    }

    private static StationOptions Parse(string[] arguments, Dictionary<string, string>? environment = null)
    {
        Assert.True(
            StationOptions.TryParse(arguments, name => environment?.GetValueOrDefault(name), out var options, out var fault), fault);
        return options;
    }
}
