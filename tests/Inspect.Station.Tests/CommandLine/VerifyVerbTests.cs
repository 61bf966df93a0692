using System.Text;
using Inspect.Station.CommandLine;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>An exported register checked on the command line, with no store at hand. The hashing is RFC 6962's,
/// the signature a signed note's.</summary>
public sealed class VerifyVerbTests
{
    [Fact]
    public async Task Run_ExportOfAStation_IsSoundAndItsSignerProvenByTheKey()
    {
        var (export, key) = await Exported(3);
        using var file = new TemporaryFile(export);

        var (code, output) = Run(file.Path, "--key", key);
        var (codeWithout, outputWithout) = Run(file.Path);

        Assert.Equal(0, code);
        Assert.Contains("Signed by the key you gave", output, StringComparison.Ordinal);
        Assert.Equal(0, codeWithout);
        Assert.Contains("the signer is unproven", outputWithout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_OneByteOfAnEntryFlipped_NamesThatEntry()
    {
        var (export, key) = await Exported(4);
        var lines = Encoding.UTF8.GetString(export).Split('\n');
        lines[2] = lines[2].Replace("\"serial\":\"9QF31207\"", "\"serial\":\"9QF31208\"", StringComparison.Ordinal);
        using var file = new TemporaryFile(Encoding.UTF8.GetBytes(string.Join('\n', lines)));

        var (code, output) = Run(file.Path, "--key", key);

        Assert.Equal(1, code);
        Assert.Contains("3", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_AnotherStationsKey_IsRefused()
    {
        var (export, _) = await Exported(1);
        var (_, otherKey) = await Exported(1);
        using var file = new TemporaryFile(export);

        Assert.Equal(1, Run(file.Path, "--key", otherKey).Code);
    }

    [Theory]
    [InlineData]
    [InlineData("--key")]
    [InlineData("/nowhere/register.jsonl")]
    public void Run_NothingToCheck_Is3(params string[] arguments) => Assert.Equal(3, Run(arguments).Code);

    private static (int Code, string Output) Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = VerifyVerb.Run(arguments, output, error);
        return (code, output.ToString() + error);
    }

    private static async Task<(byte[] Export, string Key)> Exported(int balls)
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        for (var i = 0; i < balls; i++)
        {
            await director.Recorded(SampleSheets.Legal());
        }

        return (await director.GetByteArrayAsync("/api/register.jsonl"), station.Services.GetRequiredService<StationKey>().Public.Text);
    }

    private sealed class TemporaryFile : IDisposable
    {
        public TemporaryFile(byte[] bytes) => File.WriteAllBytes(Path, bytes);

        public string Path { get; } = System.IO.Path.GetTempFileName();

        public void Dispose() => File.Delete(Path);
    }
}
