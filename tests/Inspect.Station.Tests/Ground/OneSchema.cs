using System.Runtime.CompilerServices;
using Dapper;

namespace Inspect.Station.Tests.Ground;

/// <summary>Tells Dapper that every store of the tests has one schema: it reads rows with code that it
/// otherwise makes anew for each file.</summary>
internal sealed class OneSchema : IEqualityComparer<string>
{
    public bool Equals(string? x, string? y) => true;

    public int GetHashCode(string obj) => 0;

    [ModuleInitializer]
    internal static void Say() => SqlMapper.ConnectionStringComparer = new OneSchema();
}
