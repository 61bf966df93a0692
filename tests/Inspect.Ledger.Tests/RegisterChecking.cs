namespace Inspect.Ledger.Tests;

/// <summary>Checks bytes and lines of a register, and what is asserted of a broken one.</summary>
internal static class RegisterChecking
{
    public static RegisterFinding Check(byte[] bytes, PublicKey? trusted = null) => RegisterCheck.Check(new MemoryStream(bytes), trusted);

    public static RegisterFinding CheckLines(IEnumerable<byte[]> lines, PublicKey? trusted = null) =>
        Check(ExportedRegister.Join(lines), trusted);

    public static void AssertBroken(RegisterFault fault, long entry, RegisterFinding finding)
    {
        Assert.Equal((fault, entry), (finding.Fault, finding.Entry));
        Assert.Equal(entry - 1, finding.Entries);
    }
}
