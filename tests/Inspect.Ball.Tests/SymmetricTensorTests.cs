using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace Inspect.Ball.Tests;

/// <summary>Principal values against a general-purpose linear algebra library.</summary>
public sealed class SymmetricTensorTests
{
    private static readonly Gen<SymmetricTensor> AnyTensor =
        Gen.Select(Gen.Double[-10, 10], Gen.Double[-10, 10], Gen.Double[-10, 10], Gen.Double[-3, 3], Gen.Double[-3, 3], Gen.Double[-3, 3])
            .Select((xx, yy, zz, xy, xz, yz) => new SymmetricTensor(xx, yy, zz, xy, xz, yz));

    [Fact]
    public void Principal_AnyTensor_AgreesWithMathNet() => AnyTensor.Sample(Agrees, iter: 500);

    /// <summary>Two equal values in any direction, as every ball with one hole has, and three, as every undrilled even ball.</summary>
    [Fact]
    public void Principal_EqualValues_AgreesWithMathNet() =>
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.1, 1], Gen.Double[-2, 2])
            .Sample((x, y, z, extra) =>
            {
                var axis = new Vector(x, y, z);
                Agrees(SymmetricTensor.Diagonal(7, 7, 7) + (SymmetricTensor.Square(axis / axis.Length) * extra));
            }, iter: 500);

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(5, 5, 5)]
    [InlineData(3, 3, 1)]
    [InlineData(1e-300, 1, 1e300)]
    public void Principal_Diagonal_IsItself(double xx, double yy, double zz)
    {
        var principal = SymmetricTensor.Diagonal(xx, yy, zz).Principal();

        Assert.Equal(new[] { xx, yy, zz }.Order(), [principal.Low, principal.Middle, principal.High]);
    }

    private static void Agrees(SymmetricTensor tensor)
    {
        var principal = tensor.Principal();
        var reference = Matrix<double>.Build.DenseOfArray(new[,]
        {
            { tensor.XX, tensor.XY, tensor.XZ },
            { tensor.XY, tensor.YY, tensor.YZ },
            { tensor.XZ, tensor.YZ, tensor.ZZ },
        }).Evd(Symmetricity.Symmetric).EigenValues.Select(value => value.Real).Order().ToArray();

        Close.Within(reference[0], principal.Low, 1e-12, "low");
        Close.Within(reference[1], principal.Middle, 1e-12, "middle");
        Close.Within(reference[2], principal.High, 1e-12, "high");
    }
}
