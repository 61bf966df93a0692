using System.Reflection;

namespace Inspect.Station.Tests;

/// <summary>Who may know whom: any other arrow between the projects fails here.</summary>
public class Arrows
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Inspect.Ball"] = [],
        ["Inspect.Sheets"] = ["Inspect.Ball"],
        ["Inspect.Metrology"] = ["Inspect.Ball", "Inspect.Sheets"],
        ["Inspect.Rules"] = ["Inspect.Ball", "Inspect.Sheets"],
        ["Inspect.Advice"] = ["Inspect.Ball", "Inspect.Sheets", "Inspect.Rules"],
        ["Inspect.Ledger"] = [],
        ["Inspect.Station"] = ["Inspect.Ball", "Inspect.Sheets", "Inspect.Metrology", "Inspect.Rules", "Inspect.Advice", "Inspect.Ledger"],
    };

    [Theory]
    [InlineData("Inspect.Ball")]
    [InlineData("Inspect.Sheets")]
    [InlineData("Inspect.Metrology")]
    [InlineData("Inspect.Rules")]
    [InlineData("Inspect.Advice")]
    [InlineData("Inspect.Ledger")]
    [InlineData("Inspect.Station")]
    public void Project_KnowsOnlyWhomItMay(string name)
    {
        var known = References(name).Where(each => each.StartsWith("Inspect.", StringComparison.Ordinal));

        Assert.Empty(known.Except(Allowed[name]));
    }

    [Theory]
    [InlineData("Inspect.Ball")]
    [InlineData("Inspect.Sheets")]
    [InlineData("Inspect.Metrology", "MathNet.Numerics")]
    [InlineData("Inspect.Rules", "MathNet.Numerics")]
    [InlineData("Inspect.Advice")]
    [InlineData("Inspect.Ledger")]
    public void Library_StandsOnTheBaseClassLibraryAlone(string name, params string[] besides)
    {
        var others = References(name).Where(each => !each.StartsWith("Inspect.", StringComparison.Ordinal)).Except(besides);

        Assert.All(others, each => Assert.True(
            each.StartsWith("System.", StringComparison.Ordinal) || each is "netstandard", $"{name} refers to {each}."));
    }

    private static IEnumerable<string> References(string name) =>
        Assembly.Load(name).GetReferencedAssemblies().Select(each => each.Name!);
}
