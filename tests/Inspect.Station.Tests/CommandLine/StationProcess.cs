using System.Collections.Concurrent;
using System.Diagnostics;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>The station as a process of its own, as a person starts it.</summary>
public sealed class StationProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);
    private readonly Process _process;
    private readonly BlockingCollection<string> _lines = [];
    private readonly ConcurrentQueue<string> _errors = [];

    private StationProcess(Process process)
    {
        _process = process;
        _process.OutputDataReceived += (_, line) => Take(line.Data, _lines.Add);
        _process.ErrorDataReceived += (_, line) => Take(line.Data, _errors.Enqueue);
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    /// <summary>What was written to standard error so far.</summary>
    public string Errors => string.Join('\n', _errors);

    /// <summary>Starts the program that the tests were built against; the demo passcode is not handed on.</summary>
    public static StationProcess Start(params string[] arguments) => Start(arguments, demoPasscode: null);

    /// <summary>The same, with a passcode for the demo sign-ins.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="demoPasscode">The passcode.</param>
    /// <param name="dataHome">Where a trial keeps its folder; null for the user's own place.</param>
    public static StationProcess Start(string[] arguments, string? demoPasscode, string? dataHome = null)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        start.ArgumentList.Add(typeof(Program).Assembly.Location);
        Array.ForEach(arguments, start.ArgumentList.Add);
        start.Environment["INSPECT_DEMO_PASSCODE"] = demoPasscode;
        if (dataHome is not null)
        {
            start.Environment["XDG_DATA_HOME"] = dataHome;
        }

        return new StationProcess(Process.Start(start)!);
    }

    /// <summary>The next line of standard output that contains this.</summary>
    public string LineWith(string part)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            var line = _lines.Take(patience.Token);
            if (line.Contains(part, StringComparison.Ordinal))
            {
                return line;
            }
        }
    }

    /// <summary>Waits for the end, and answers the exit code.</summary>
    public async Task<int> Ended()
    {
        using var patience = new CancellationTokenSource(Patience);
        await _process.WaitForExitAsync(patience.Token);
        return _process.ExitCode;
    }

    /// <summary>Asks the process to stop, as a service manager does.</summary>
    public void AskToStop()
    {
        using var kill = Process.Start("kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    /// <summary>Kills the process as nothing can prepare for: signal 9.</summary>
    public void KillHard()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
        _lines.Dispose();
    }

    private static void Take(string? line, Action<string> take)
    {
        if (line is not null)
        {
            take(line);
        }
    }
}
