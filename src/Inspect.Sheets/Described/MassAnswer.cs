using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Ball;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>Writes the mass properties of a described ball as JSON numbers, rounded to the last digit that means something.</summary>
public static class MassAnswer
{
    private const int Ounces = 7;
    private const int Moments = 6;
    private const int Gravity = 8;
    private const int Gyration = 7;

    /// <summary>The answer. When another inside than the one described was used, it says which and why.</summary>
    public static JsonObject Of(DescribedBall described)
    {
        var mass = MassPropertiesOf.Compute(described.Ball, described.Holes);
        var answer = new JsonObject
        {
            ["removedOz"] = new JsonArray([.. mass.RemovedOz.Select(removed => Number(removed, Ounces))]),
            ["massOz"] = Number(mass.MassOz, Ounces),
            ["momentOzIn"] = Numbers(mass.MomentOzIn, Moments),
            ["cgIn"] = Numbers(mass.CgIn, Gravity),
            ["rgIn"] = Numbers(mass.RgIn, Gyration),
            ["principalRgIn"] =
                Numbers(new Vector(mass.PrincipalRgIn.LowIn, mass.PrincipalRgIn.MiddleIn, mass.PrincipalRgIn.HighIn), Gyration),
            ["totalDifferentialIn"] = Number(mass.TotalDifferentialIn, Gyration),
            ["intermediateDifferentialIn"] = Number(mass.IntermediateDifferentialIn, Gyration),
        };
        if (mass.InteriorReason is { } reason)
        {
            answer["interior"] = "uniform";
            answer["reason"] = reason;
        }

        return answer;
    }

    private static JsonArray Numbers(Vector vector, int decimals) =>
        new(Number(vector.X, decimals), Number(vector.Y, decimals), Number(vector.Z, decimals));

    /// <summary>The number with this many decimals, closing zeros included; zero never has a minus sign.</summary>
    private static JsonNode Number(double value, int decimals)
    {
        var rounded = Math.Round(Seam.ToDecimal(value), decimals, MidpointRounding.AwayFromZero);
        return JsonNode.Parse(
            (rounded == 0 ? 0m : rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))!;
    }
}
