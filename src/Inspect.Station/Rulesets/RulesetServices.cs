namespace Inspect.Station.Rulesets;

/// <summary>The book of rules as the station's steps ask for it.</summary>
public static class RulesetServices
{
    /// <summary>Adds the book and its editions.</summary>
    public static void AddRulesets(this IServiceCollection services, RulesetBook book)
    {
        services.AddSingleton(book);
        services.AddSingleton(book.Editions);
    }
}
