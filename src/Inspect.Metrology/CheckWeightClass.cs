namespace Inspect.Metrology;

/// <summary>The accuracy classes of check weights, and how far a weight of each may be off its nominal mass.</summary>
/// <remarks>OIML R 111-1:2004, table 1, maximum permissible errors in mg. The values for 20 g, 100 g, 1 kg and 5 kg were checked against a
/// second source.</remarks>
public static class CheckWeightClass
{
    /// <summary>The classes known here, finest first.</summary>
    public static readonly IReadOnlyList<string> All = ["F1", "F2", "M1", "M2", "M3"];

    private static readonly Dictionary<decimal, decimal[]> ErrorsMg = new()
    {
        [1] = [0.10m, 0.3m, 1.0m, 3.0m, 10m],
        [2] = [0.12m, 0.4m, 1.2m, 4.0m, 12m],
        [5] = [0.16m, 0.5m, 1.6m, 5.0m, 16m],
        [10] = [0.20m, 0.6m, 2.0m, 6.0m, 20m],
        [20] = [0.25m, 0.8m, 2.5m, 8.0m, 25m],
        [50] = [0.3m, 1.0m, 3.0m, 10m, 30m],
        [100] = [0.5m, 1.6m, 5.0m, 16m, 50m],
        [200] = [1.0m, 3.0m, 10m, 30m, 100m],
        [500] = [2.5m, 8.0m, 25m, 80m, 250m],
        [1000] = [5.0m, 16m, 50m, 160m, 500m],
        [2000] = [10m, 30m, 100m, 300m, 1000m],
        [5000] = [25m, 80m, 250m, 800m, 2500m],
        [10_000] = [50m, 160m, 500m, 1600m, 5000m],
        [20_000] = [100m, 300m, 1000m, 3000m, 10_000m],
    };

    /// <summary>The maximum permissible error in grams, or null where the class has no weight of this nominal mass.</summary>
    public static decimal? ErrorOf(string accuracyClass, decimal nominalGrams)
    {
        for (var i = 0; i < All.Count; i++)
        {
            if (All[i] == accuracyClass)
            {
                return ErrorsMg.TryGetValue(nominalGrams, out var errors) ? errors[i] / 1000m : null;
            }
        }

        return null;
    }
}
