using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Inspect.Benchmarks.Recording;

/// <summary>The reference: one route that writes as many bytes as an inspection takes and answers when they are on the disk. It shares
/// commits as the station does and syncs as fully, and does nothing else.</summary>
internal sealed class BareRecorder : IAsyncDisposable
{
    private const int MostTogether = 256;

    private readonly BlockingCollection<(byte[] Body, TaskCompletionSource Written)> _waiting = [];
    private readonly SqliteConnection _connection;
    private readonly Thread _thread;
    private readonly WebApplication _app;

    private BareRecorder(string file, int kept, byte[] answer)
    {
        _connection = new SqliteConnection($"Data Source={file};Pooling=False");
        _connection.Open();
        using (var command = _connection.CreateCommand())
        {
            command.CommandText =
                "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE entry (seq INTEGER PRIMARY KEY, body BLOB NOT NULL);";
            command.ExecuteNonQuery();
        }

        _thread = new Thread(Write) { IsBackground = true };
        _thread.Start();
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _app = builder.Build();
        _app.MapPost("/record", async (HttpRequest request) =>
        {
            var body = new byte[kept];
            await request.Body.ReadExactlyAsync(body.AsMemory(0, (int)request.ContentLength!.Value));
            var written = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            _waiting.Add((body, written));
            await written.Task;
            return Results.Bytes(answer, "application/json");
        });
    }

    /// <summary>Where it listens.</summary>
    public Uri Address => new(_app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());

    /// <param name="folder">Where its file goes.</param>
    /// <param name="kept">How many bytes it writes for a request.</param>
    /// <param name="answer">What it answers.</param>
    public static async Task<BareRecorder> Start(string folder, int kept, byte[] answer)
    {
        var recorder = new BareRecorder(Path.Combine(folder, "bare.db"), kept, answer);
        await recorder._app.StartAsync();
        return recorder;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _waiting.CompleteAdding();
        _thread.Join();
        _connection.Dispose();
        _waiting.Dispose();
    }

    private void Write()
    {
        using var insert = _connection.CreateCommand();
        insert.CommandText = "INSERT INTO entry (body) VALUES ($body)";
        var parameter = insert.Parameters.Add("$body", SqliteType.Blob);
        var together = new List<TaskCompletionSource>();
        foreach (var first in _waiting.GetConsumingEnumerable())
        {
            together.Clear();
            using var transaction = _connection.BeginTransaction();
            insert.Transaction = transaction;
            var next = first;
            do
            {
                parameter.Value = next.Body;
                insert.ExecuteNonQuery();
                together.Add(next.Written);
            }
            while (together.Count < MostTogether && _waiting.TryTake(out next));
            transaction.Commit();
            together.ForEach(written => written.SetResult());
        }
    }
}
