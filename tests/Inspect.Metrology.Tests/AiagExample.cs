using System.Globalization;

namespace Inspect.Metrology.Tests;

/// <summary>The worked example of the AIAG's Measurement Systems Analysis, fourth edition, 2010: ten parts,
/// three appraisers, three trials.</summary>
internal static class AiagExample
{
    private const string Readings = """
        0.29  0.41  0.64   0.08  0.25  0.07   0.04 -0.11 -0.15
        -0.56 -0.68 -0.58  -0.47 -1.22 -0.68  -1.38 -1.13 -0.96
        1.34  1.17  1.27   1.19  0.94  1.34   0.88  1.09  0.67
        0.47  0.50  0.64   0.01  1.03  0.20   0.14  0.20  0.11
        -0.80 -0.92 -0.84  -0.56 -1.20 -1.28  -1.46 -1.07 -1.45
        0.02 -0.11 -0.21  -0.20  0.22  0.06  -0.29 -0.67 -0.49
        0.59  0.75  0.66   0.47  0.55  0.83   0.02  0.01  0.21
        -0.31 -0.20 -0.17  -0.63  0.08 -0.34  -0.46 -0.56 -0.49
        2.26  1.99  2.01   1.80  2.12  2.19   1.77  1.45  1.87
        -1.36 -1.25 -1.31  -1.68 -1.62 -1.50  -1.49 -1.77 -2.16
        """;

    public static GaugeTable Table()
    {
        var rows = Readings.Split('\n').Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)).ToList();
        var readings = new double[10, 3, 3];
        for (var i = 0; i < 90; i++)
        {
            readings[i / 9, i % 9 / 3, i % 3] = double.Parse(rows[i / 9][i % 9], CultureInfo.InvariantCulture);
        }

        return new GaugeTable([.. Enumerable.Range(1, 10).Select(part => $"{part}")], ["A", "B", "C"], readings);
    }
}
