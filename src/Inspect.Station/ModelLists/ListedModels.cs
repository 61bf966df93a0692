using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Storage;

namespace Inspect.Station.ModelLists;

/// <summary>A list of models, such as a body's list of approved balls.</summary>
/// <param name="Id">Its number on this station.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Versions">What it said, newest first.</param>
public sealed record ModelList(long Id, string Name, IReadOnlyList<ModelListVersion> Versions)
{
    /// <summary>The version that is read for a day: the newest that is not of a later day, else the oldest.</summary>
    public ModelListVersion? AsOf(DateOnly day) =>
        Versions.FirstOrDefault(version => version.Day <= day) ?? (Versions is [.., var oldest] ? oldest : null);

    /// <summary>The newest version.</summary>
    public ModelListVersion? Newest => Versions is [var newest, ..] ? newest : null;
}

/// <summary>What a list said on a day.</summary>
/// <param name="List">The list's number.</param>
/// <param name="Version">From 1, one more each time the list is brought in.</param>
/// <param name="Day">The day of which it is, as its source says.</param>
/// <param name="Source">Where it was had from.</param>
/// <param name="Sha256">The hash of its file.</param>
/// <param name="Models">How many models it has.</param>
/// <param name="Seq">The register's entry.</param>
public sealed record ModelListVersion(long List, long Version, DateOnly Day, string Source, string Sha256, long Models, long Seq)
{
    /// <summary>What the file of the version is called, outside this station.</summary>
    public string FileName => string.Create(CultureInfo.InvariantCulture, $"list-{List}-{Version}.csv");
}

/// <summary>The lists of models on this station. A version is never changed, and the register has its hash.</summary>
public sealed class ListedModels(Database database)
{
    /// <summary>The kind of the register's entry.</summary>
    public const string Kind = "model-list";

    private const string RowColumns = """
        maker AS Maker, model AS Model, status AS Status, is_listed AS IsListed, from_day AS FromDay, until_day AS UntilDay,
        hardness AS Hardness, pounds AS Pounds, rg AS Rg, differential AS Differential, intermediate AS Intermediate
        """;

    /// <summary>Every list, by name.</summary>
    public IReadOnlyList<ModelList> All()
    {
        using var connection = database.OpenForReading();
        return All(connection, null);
    }

    /// <summary>The list with a number; null when there is none.</summary>
    public ModelList? Find(long id) => All().FirstOrDefault(list => list.Id == id);

    /// <summary>The rows of a version whose maker and model begin with the typed words, by maker and model.</summary>
    public IReadOnlyList<ModelRow> Rows(ModelListVersion version, string typed = "")
    {
        using var connection = database.OpenForReading();
        return
        [
            .. connection.Query<RowOfList>(
                $"SELECT {RowColumns} FROM model_list_row WHERE list = @List AND version = @Version ORDER BY maker_key, model_key, line",
                version).Select(row => row.ToDomain())
                .Where(row => typed.Length == 0 || NameFold.Matches(typed, $"{row.Maker} {row.Model}")),
        ];
    }

    /// <summary>The file of a version.</summary>
    public byte[] FileOf(ModelListVersion version)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<byte[]>("SELECT file FROM model_list_version WHERE list = @List AND version = @Version", version)!;
    }

    /// <summary>What was said of the columns of the file brought in last, where a row of this one has the same heads.</summary>
    public ModelMatching? Remembered(long list, ImportTable table)
    {
        using var connection = database.OpenForReading();
        var (heads, columns) = connection.QuerySingle<(byte[]? Heads, string? Columns)>(
            "SELECT heads, columns FROM model_list WHERE list = @list", new { list });
        return heads is not null && ModelMatching.MayBeHeads(table).FirstOrDefault(
            row => Matching.HashOf(row).AsSpan().SequenceEqual(heads)) is { } row
            ? ModelMatching.Of(table, row.Number, columns!) : null;
    }

    /// <summary>Remembers what was said of the columns of a file, for the next one with the same heads.</summary>
    internal static void Remember(WriteTransaction write, long list, ImportTable table, ModelMatching said)
    {
        if (table.Rows.FirstOrDefault(row => row.Number == said.HeadsRow) is { } heads)
        {
            write.Connection.Execute(
                "UPDATE model_list SET heads = @heads, columns = @Words WHERE list = @list",
                new { heads = Matching.HashOf(heads), said.Words, list }, write.Transaction);
        }
    }

    /// <summary>Every list, by name, within a transaction if one is given.</summary>
    internal static IReadOnlyList<ModelList> All(DbConnection connection, DbTransaction? transaction)
    {
        var versions = connection.Query<VersionRow>(
            """
            SELECT list AS List, version AS Version, day AS Day, source AS Source, sha256 AS Sha256, models AS Models, seq AS Seq
            FROM model_list_version ORDER BY list, day DESC, version DESC
            """, null, transaction).Select(row => row.ToDomain()).ToLookup(version => version.List);
        return [.. connection.Query<(long Id, string Name)>("SELECT list, name FROM model_list ORDER BY name, list", null, transaction)
            .Select(row => new ModelList(row.Id, row.Name, [.. versions[row.Id]]))];
    }

    /// <summary>The rows of one model in a version.</summary>
    internal static IReadOnlyList<ModelRow> RowsOf(
        DbConnection connection, DbTransaction? transaction, ModelListVersion version, string maker, string model) =>
        [.. connection.Query<RowOfList>(
            $"""
            SELECT {RowColumns} FROM model_list_row
            WHERE list = @List AND version = @Version AND model_key = @model AND maker_key = @maker ORDER BY line
            """,
            new { version.List, version.Version, maker = ModelRow.KeyOf(maker), model = ModelRow.KeyOf(model) },
            transaction).Select(row => row.ToDomain())];

    /// <summary>Models of a version whose names are near a name that it does not have: of another maker, or that begin alike.</summary>
    internal static IReadOnlyList<(string Maker, string Model)> Near(
        DbConnection connection, DbTransaction? transaction, ModelListVersion version, string maker, string model)
    {
        var key = ModelRow.KeyOf(model);
        return [.. connection.Query<(string, string)>(
            """
            SELECT DISTINCT maker, model FROM model_list_row
            WHERE list = @List AND version = @Version AND (model_key = @key
              OR (maker_key = @makerKey AND substr(model_key, 1, @length) = substr(@key, 1, @length)))
            ORDER BY maker, model LIMIT 3
            """,
            new
            {
                version.List, version.Version, key, makerKey = ModelRow.KeyOf(maker), length = Math.Max(3, Math.Min(6, key.Length - 1)),
            },
            transaction)];
    }

    /// <summary>Adds a list without versions.</summary>
    /// <returns>Its number.</returns>
    public static long AddList(WriteTransaction write, string name) => write.Connection.ExecuteScalar<long>(
        "INSERT INTO model_list (list, name) SELECT 1 + coalesce(max(list), 0), @name FROM model_list RETURNING list",
        new { name }, write.Transaction);

    /// <summary>Adds what a list says on a day, and says it to the register: all but the source, which may name a person.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="version">The list, the day and the source.</param>
    /// <param name="rows">Its rows.</param>
    /// <param name="file">The same as a file.</param>
    /// <param name="by">Who brought it in.</param>
    /// <param name="at">When.</param>
    public static ModelListVersion AddVersion(
        WriteTransaction write, ModelListVersion version, IReadOnlyList<ModelRow> rows, byte[] file, PersonId by, DateTimeOffset at)
    {
        var number = 1 + write.Connection.ExecuteScalar<long>(
            "SELECT coalesce(max(version), 0) FROM model_list_version WHERE list = @List", version, write.Transaction);
        var name = write.Connection.ExecuteScalar<string>("SELECT name FROM model_list WHERE list = @List", version, write.Transaction);
        var entry = Register.Append(write, Kind, 1, new JsonObject
        {
            ["list"] = version.List,
            ["name"] = name,
            ["version"] = number,
            ["day"] = $"{version.Day:yyyy-MM-dd}",
            ["sha256"] = version.Sha256,
            ["models"] = version.Models,
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
            ["at"] = UtcText.Of(at),
        });
        var added = version with { Version = number, Seq = entry.Seq };
        write.Connection.Execute(
            """
            INSERT INTO model_list_version (list, version, day, source, sha256, models, file, seq)
            VALUES (@List, @Version, @Day, @Source, @Sha256, @Models, @file, @Seq)
            """,
            new
            {
                added.List,
                added.Version,
                Day = $"{added.Day:yyyy-MM-dd}",
                added.Source,
                added.Sha256,
                added.Models,
                file,
                added.Seq,
            },
            write.Transaction);
        write.Connection.Execute(
            """
            INSERT INTO model_list_row (list, version, line, maker_key, model_key, maker, model, status, is_listed, from_day, until_day,
              hardness, pounds, rg, differential, intermediate)
            VALUES (@List, @Version, @Line, @MakerKey, @ModelKey, @Maker, @Model, @Status, @IsListed, @From, @Until, @Hardness, @Pounds,
              @Rg, @Differential, @Intermediate)
            """,
            rows.Index().Select(each => new
            {
                added.List,
                added.Version,
                Line = each.Index + 1,
                MakerKey = ModelRow.KeyOf(each.Item.Maker),
                ModelKey = ModelRow.KeyOf(each.Item.Model),
                each.Item.Maker,
                each.Item.Model,
                each.Item.Status,
                each.Item.IsListed,
                From = each.Item.From?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                Until = each.Item.Until?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                each.Item.Hardness,
                each.Item.Pounds,
                each.Item.Rg,
                each.Item.Differential,
                each.Item.Intermediate,
            }),
            write.Transaction);
        return added;
    }

    /// <summary>Rows as the file of a version, with its hash.</summary>
    public static (byte[] File, string Sha256) FileOf(IEnumerable<ModelRow> rows)
    {
        var file = Encoding.UTF8.GetBytes(ModelRow.Csv(rows));
        return (file, Convert.ToHexStringLower(SHA256.HashData(file)));
    }

    private sealed record VersionRow(long List, long Version, string Day, string Source, string Sha256, long Models, long Seq)
    {
        public ModelListVersion ToDomain() => new(
            List, Version, DateOnly.ParseExact(Day, "yyyy-MM-dd", CultureInfo.InvariantCulture), Source, Sha256, Models, Seq);
    }

    private sealed record RowOfList(
        string Maker, string Model, string? Status, long IsListed, string? FromDay, string? UntilDay, string? Hardness, long? Pounds,
        string? Rg, string? Differential, string? Intermediate)
    {
        public ModelRow ToDomain() => new(
            Maker, Model, Status, IsListed == 1, Day(FromDay), Day(UntilDay), Hardness, (int?)Pounds, Rg, Differential, Intermediate);

        private static DateOnly? Day(string? text) =>
            text is null ? null : DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
    }
}
