namespace Inspect.Station.Rulesets;

/// <summary>The book of rules as the station's steps ask for it.</summary>
public static class RulesetServices
{
    /// <summary>Adds the book, which may still be being read, and its editions.</summary>
    public static void AddRulesets(this IServiceCollection services, Func<RulesetBook> book)
    {
        services.AddSingleton(_ => book());
        services.AddSingleton(_ => book().Editions);
    }
}
