namespace Inspect.Station.Judge;

/// <summary>What showing a verdict needs.</summary>
public static class JudgeServices
{
    /// <summary>Adds the advice on failed balls, kept for the page, the slip and the table.</summary>
    public static void AddJudge(this IServiceCollection services) => services.AddSingleton<KeptAdvice>();
}
