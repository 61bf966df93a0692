using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Web;

public class OpenApiTests
{
    [Fact]
    public async Task Document_IsTheCommittedOne()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        var generated = Tidy(await client.GetStringAsync("/openapi/v1.json"));

        var path = Path.Combine(Repository.Root, "src", "Inspect.Station", "openapi.v1.json");
        if (Environment.GetEnvironmentVariable("INSPECT_REFRESH_OPENAPI") == "1")
        {
            await File.WriteAllTextAsync(path, generated);
        }

        Assert.True(
            File.Exists(path) && generated == await File.ReadAllTextAsync(path),
            "The routes and src/Inspect.Station/openapi.v1.json differ. If the change is meant, write the file anew with\n"
            + "  INSPECT_REFRESH_OPENAPI=1 dotnet test tests/Inspect.Station.Tests --filter OpenApiTests\nand commit it with the change.");
    }

    private static string Tidy(string document) =>
        JsonNode.Parse(document)!.ToJsonString(new() { WriteIndented = true }).ReplaceLineEndings("\n") + "\n";
}
