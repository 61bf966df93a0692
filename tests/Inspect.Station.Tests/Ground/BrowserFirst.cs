using Xunit.Abstractions;

[assembly: TestCollectionOrderer("Inspect.Station.Tests.Ground.BrowserFirst", "Inspect.Station.Tests")]

namespace Inspect.Station.Tests.Ground;

/// <summary>Lets the browser tests begin first: they run one after another, and everything else fits beside them.</summary>
public sealed class BrowserFirst : ITestCollectionOrderer
{
    /// <inheritdoc/>
    public IEnumerable<ITestCollection> OrderTestCollections(IEnumerable<ITestCollection> testCollections) =>
        testCollections.OrderByDescending(collection => collection.DisplayName == BrowserTests.Name);
}
