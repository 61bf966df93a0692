namespace Inspect.Ledger.Tests;

/// <summary>The check of a large register, run while no other test allocates. The behaviour is defined by this project.</summary>
[Collection(nameof(RegisterCheckMemoryTests))]
[CollectionDefinition(nameof(RegisterCheckMemoryTests), DisableParallelization = true)]
public sealed class RegisterCheckMemoryTests
{
    [Fact]
    public void Check_LargeRegister_KeepsNoMoreThanAFewLines()
    {
        // 20,000 entries are several megabytes; what stays in memory after each chunk does not grow with them.
        using var register = new ExportedRegister(20_000);
        var bytes = register.Bytes;
        var check = new RegisterCheck(register.Key);
        check.Add(bytes.AsSpan(0, 100_000));
        var before = GC.GetTotalMemory(forceFullCollection: true);
        check.Add(bytes.AsSpan(100_000, bytes.Length - 200_000));
        var grown = GC.GetTotalMemory(forceFullCollection: true) - before;
        check.Add(bytes.AsSpan(bytes.Length - 100_000));

        Assert.True(check.Finish().IsSound);
        Assert.InRange(grown, long.MinValue, 1_000_000);
    }
}
