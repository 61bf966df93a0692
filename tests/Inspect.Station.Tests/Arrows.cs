using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

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

    // What the compiler refuses in them (CA1416 and the banned symbols) is looked for once more in what it made of them.
    [Theory]
    [InlineData("Inspect.Ball")]
    [InlineData("Inspect.Sheets")]
    [InlineData("Inspect.Metrology")]
    [InlineData("Inspect.Rules")]
    [InlineData("Inspect.Advice")]
    public void Library_RunsInABrowser(string name) => Assert.Empty(NotInABrowser(Assembly.Load(name)));

    [Fact]
    public void NotInABrowser_ReadingAFileAndTheNamesOfAnEnum_IsSeen()
    {
        Assert.NotEqual(Enum.GetValues<DayOfWeek>().Length, File.ReadAllBytes(typeof(Arrows).Assembly.Location).Length);

        Assert.Superset(new HashSet<string> { "System.IO.File.ReadAllBytes", "System.Enum.GetValues" }, NotInABrowser(
            typeof(Arrows).Assembly).ToHashSet());
    }

    /// <summary>What an assembly calls that reads or writes, asks the machine, or looks types up by name.</summary>
    private static List<string> NotInABrowser(Assembly assembly)
    {
        using var file = new PEReader(File.OpenRead(assembly.Location));
        var reader = file.GetMetadataReader();
        return reader.MemberReferences.Select(handle => reader.GetMemberReference(handle))
            .Where(member => member.Parent.Kind == HandleKind.TypeReference)
            .Select(member => (Type: reader.GetTypeReference((TypeReferenceHandle)member.Parent), Name: reader.GetString(member.Name)))
            .Select(member => (Type: $"{reader.GetString(member.Type.Namespace)}.{reader.GetString(member.Type.Name)}", member.Name))
            .Where(member => Banned.Any(banned => $"{member.Type}.{member.Name}".StartsWith(banned, StringComparison.Ordinal)))
            .Select(member => $"{member.Type}.{member.Name}")
            // What the compiler puts into every iterator.
            .Except(["System.Environment.get_CurrentManagedThreadId"]).ToList();
    }

    private static readonly string[] Banned =
    [
        "System.IO.File", "System.IO.Directory", "System.IO.Path.", "System.Net.", "System.Console.", "System.Environment.Get",
        "System.Environment.Exit", "System.Environment.get_Machine", "System.Environment.get_Tick", "System.Diagnostics.Process",
        "System.Threading.Thread.", "System.TimeZoneInfo.", "System.DateTime.get_Now", "System.DateTime.get_UtcNow",
        "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow", "System.TimeProvider.",
        "System.Globalization.CultureInfo.get_Current", "System.Enum.Get", "System.Enum.Parse", "System.Enum.TryParse", "System.Activator.",
        "System.Reflection.Assembly.", "System.Reflection.MethodInfo", "System.Reflection.PropertyInfo", "System.Reflection.FieldInfo",
        "System.Type.GetP", "System.Type.GetM", "System.Type.GetF",
    ];

    private static IEnumerable<string> References(string name) =>
        Assembly.Load(name).GetReferencedAssemblies().Select(each => each.Name!);
}
