using System.Diagnostics;
using System.Globalization;

namespace Inspect.Station.Storage;

/// <summary>Checks every entry at the start of the station and once a day, in small turns with a pause after each, so that nobody who
/// records waits for it.</summary>
public sealed partial class BackgroundCheck(
    Database database, WriteGate gate, IEnumerable<RegisterIndex> indexes, StoreState state, TimeProvider time,
    ILogger<BackgroundCheck> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromDays(1);

    // After each turn it rests three times as long as the turn took, and longer while somebody waits to write.
    private const int Rest = 3;
    private static readonly TimeSpan WhileOthersWait = TimeSpan.FromMilliseconds(20);

    /// <summary>Runs one check and keeps what it finds.</summary>
    public async Task Run(CancellationToken stop)
    {
        var check = new StoreCheck(database, indexes);
        var began = Stopwatch.GetTimestamp();
        foreach (var (done, of) in check.Turns())
        {
            state.Check = string.Create(CultureInfo.InvariantCulture, $"The register is being checked: {done} of {of} entries.");
            check.Faults.ToList().ForEach(state.Add);
            await Task.Delay(Stopwatch.GetElapsedTime(began) * Rest, stop).ConfigureAwait(false);
            while (gate.Waiting > 0)
            {
                await Task.Delay(WhileOthersWait, stop).ConfigureAwait(false);
            }

            began = Stopwatch.GetTimestamp();
        }

        state.Found(check.Faults);
        gate.SoundUpTo = check.Faults.Count == 0 ? check.Head.Size : 0;
        var at = time.GetUtcNow().UtcDateTime;
        state.Check = check.Faults.Count == 0
            ? string.Create(
                CultureInfo.InvariantCulture, $"The register was sound at {at:yyyy-MM-dd HH:mm} UTC: {check.Head.Size} entries.")
            : string.Create(CultureInfo.InvariantCulture, $"The check of {at:yyyy-MM-dd HH:mm} UTC found {check.Faults.Count} faults.");
        foreach (var fault in check.Faults)
        {
            Found(log, fault);
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await Run(stoppingToken).ConfigureAwait(false);
            }
            catch (Exception error) when (error is not OperationCanceledException)
            {
                state.Check = "The register could not be checked: the log says why.";
                Failed(log, error);
            }

            await Task.Delay(Every, time, stoppingToken).ConfigureAwait(false);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The check of the store found a fault: {Fault}")]
    private static partial void Found(ILogger log, string fault);

    [LoggerMessage(Level = LogLevel.Error, Message = "The check of the store failed")]
    private static partial void Failed(ILogger log, Exception error);
}
