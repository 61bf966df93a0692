using Xunit.Abstractions;

[assembly: TestCollectionOrderer("Inspect.Station.Tests.Ground.BrowserFirst", "Inspect.Station.Tests")]

namespace Inspect.Station.Tests.Ground;

/// <summary>Lets the browser tests begin first: those of a collection run one after another, and everything else fits beside.</summary>
public sealed class BrowserFirst : ITestCollectionOrderer
{
    /// <inheritdoc/>
    public IEnumerable<ITestCollection> OrderTestCollections(IEnumerable<ITestCollection> testCollections) =>
        testCollections.OrderByDescending(collection => collection.DisplayName is BrowserTests.Name or BrowserLooks.Name);
}
