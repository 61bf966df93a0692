using System.Reflection;
using System.Runtime.CompilerServices;
using Inspect.Station.Measure;

namespace Inspect.Station.Tests;

/// <summary>A method that needs very much does more than one thing.</summary>
public class ParametersTests
{
    private const int Most = 8;

    private const BindingFlags Every =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    [Fact]
    public void Method_OfTheStation_HasNoMoreThanEightParameters()
    {
        var methods = typeof(MeasurePages).Assembly.GetTypes().SelectMany(type => type.GetMethods(Every))
            .Where(method => !IsWrittenByTheCompiler(method)).ToList();

        Assert.NotEmpty(methods);
        Assert.Empty(methods.Where(method => method.GetParameters().Length > Most)
            .Select(method => $"{method.DeclaringType}.{method.Name} has {method.GetParameters().Length} parameters"));
    }

    // A record's Deconstruct has as many parameters as the record has data.
    private static bool IsWrittenByTheCompiler(MethodInfo method) =>
        method.Name == "Deconstruct" && method.IsDefined(typeof(CompilerGeneratedAttribute), inherit: false);
}
