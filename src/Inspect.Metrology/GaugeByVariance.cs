using MathNet.Numerics.Distributions;

namespace Inspect.Metrology;

/// <summary>One line of an analysis of variance.</summary>
/// <param name="Source">part, inspector, interaction or repeatability.</param>
/// <param name="SumOfSquares">In the square of the readings' unit.</param>
/// <param name="Freedom">Degrees of freedom.</param>
/// <param name="F">The ratio tested, or null when none is.</param>
/// <param name="P">The probability of this ratio or a larger one by chance.</param>
public sealed record VarianceLine(string Source, double SumOfSquares, int Freedom, double? F = null, double? P = null)
{
    /// <summary>The mean square; zero without degrees of freedom.</summary>
    public double MeanSquare => Freedom == 0 ? 0 : SumOfSquares / Freedom;
}

/// <summary>A gauge study computed by analysis of variance; parts and inspectors are both taken as random.</summary>
/// <param name="Part">Between parts.</param>
/// <param name="Inspector">Between inspectors.</param>
/// <param name="Interaction">Where inspectors differ on some parts in another way than on the rest.</param>
/// <param name="Repeatability">Within one inspector's readings of one part.</param>
/// <param name="IsPooled">Whether the interaction was counted as repeatability.</param>
/// <param name="Result">The standard deviations.</param>
public sealed record GaugeByVariance(
    VarianceLine Part, VarianceLine Inspector, VarianceLine Interaction, VarianceLine Repeatability, bool IsPooled, GaugeResult Result)
{
    /// <summary>An interaction whose p is not below this is pooled with the repeatability (AIAG, Measurement Systems Analysis).</summary>
    public const double PoolingAlpha = 0.25;

    /// <summary>Computes a study and pools the interaction unless its p is below <see cref="PoolingAlpha"/>.</summary>
    public static GaugeByVariance Of(GaugeTable table) => Of(table, pool: null);

    /// <summary>Computes a study, with the interaction kept separate or pooled whatever its p is.</summary>
    public static GaugeByVariance Of(GaugeTable table, bool? pool)
    {
        var (parts, inspectors, trials) = (table.Parts.Count, table.Inspectors.Count, table.Trials);
        var grand = table.All.Average();
        var ofPart = Enumerable.Range(0, parts).Sum(part => Square(table.OfPart(part).Average() - grand)) * inspectors * trials;
        var ofInspector = Enumerable.Range(0, inspectors).Sum(inspector => Square(table.OfInspector(inspector).Average() - grand))
            * parts * trials;
        var (ofCells, within) = (0.0, 0.0);
        for (var part = 0; part < parts; part++)
        {
            for (var inspector = 0; inspector < inspectors; inspector++)
            {
                var mean = table.Cell(part, inspector).Average();
                ofCells += trials * Square(mean - grand);
                within += table.Cell(part, inspector).Sum(reading => Square(reading - mean));
            }
        }

        var interaction = new VarianceLine("interaction", Math.Max(0, ofCells - ofPart - ofInspector), (parts - 1) * (inspectors - 1));
        var repeatability = new VarianceLine("repeatability", within, parts * inspectors * (trials - 1));
        interaction = Tested(interaction, repeatability);
        var isPooled = interaction.Freedom > 0 && (pool ?? !(interaction.P < PoolingAlpha));
        var pooled = isPooled
            ? new VarianceLine("repeatability", within + interaction.SumOfSquares, repeatability.Freedom + interaction.Freedom)
            : repeatability;
        var against = isPooled || interaction.Freedom == 0 ? pooled : interaction;
        var partLine = Tested(new VarianceLine("part", ofPart, parts - 1), against);
        var inspectorLine = Tested(new VarianceLine("inspector", ofInspector, inspectors - 1), against);
        var ofInteraction = isPooled || interaction.Freedom == 0
            ? 0
            : Math.Max(0, (interaction.MeanSquare - repeatability.MeanSquare) / trials);
        var between = inspectors == 1 ? 0 : Math.Max(0, (inspectorLine.MeanSquare - against.MeanSquare) / (parts * trials));
        var method = inspectors == 1 ? "analysis of variance, one inspector"
            : isPooled ? "analysis of variance, interaction pooled with repeatability"
            : "analysis of variance with interaction";
        return new GaugeByVariance(partLine, inspectorLine, interaction, repeatability, isPooled, new GaugeResult(
            method,
            Math.Sqrt(pooled.MeanSquare),
            Math.Sqrt(between + ofInteraction),
            Math.Sqrt(Math.Max(0, (partLine.MeanSquare - against.MeanSquare) / (inspectors * trials))),
            pooled.Freedom));
    }

    // There is no ratio when there is no error to compare with.
    private static VarianceLine Tested(VarianceLine line, VarianceLine against)
    {
        if (line.Freedom == 0 || against.Freedom == 0 || against.MeanSquare == 0)
        {
            return line;
        }

        var ratio = line.MeanSquare / against.MeanSquare;
        return line with { F = ratio, P = 1 - FisherSnedecor.CDF(line.Freedom, against.Freedom, ratio) };
    }

    private static double Square(double value) => value * value;
}
