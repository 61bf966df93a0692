namespace Inspect.Ledger.Tests;

/// <summary>The check of a large register, run while no other test allocates. The behaviour is defined by this project.</summary>
[Collection(nameof(RegisterCheckMemoryTests))]
[CollectionDefinition(nameof(RegisterCheckMemoryTests), DisableParallelization = true)]
public sealed class RegisterCheckMemoryTests
{
    [Fact]
    public void Check_LargeRegister_KeepsNoMoreThanAFewLines()
    {
        // 20,000 entries are several megabytes; what stays in memory after each piece does not grow with them.
        using var register = new ExportedRegister(20_000);
        using var export = new MemoryStream(register.Bytes);
        var check = new RegisterCheck(register.Key);
        var kept = new List<long>();
        foreach (var piece in WholeLines.Of(export))
        {
            check.Add(RegisterLine.In(piece));
            kept.Add(GC.GetTotalMemory(forceFullCollection: true));
        }

        Assert.True(check.Finish().IsSound);
        Assert.InRange(kept.Count, 50, 1_000);
        Assert.InRange(kept[^2] - kept[1], long.MinValue, 1_000_000);
    }
}
