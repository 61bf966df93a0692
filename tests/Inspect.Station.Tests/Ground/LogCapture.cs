using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace Inspect.Station.Tests.Ground;

/// <summary>Keeps every line that the station logs, whole: category, words, error, and whatever stands in the scopes around it.</summary>
public sealed class LogCapture : ILoggerProvider, ISupportExternalScope
{
    private readonly ConcurrentQueue<string> _lines = [];
    private IExternalScopeProvider _scopes = new LoggerExternalScopeProvider();

    /// <summary>The lines so far.</summary>
    public IReadOnlyCollection<string> Lines => _lines;

    public ILogger CreateLogger(string categoryName) => new Category(this, categoryName);

    public void SetScopeProvider(IExternalScopeProvider scopeProvider) => _scopes = scopeProvider;

    public void Dispose()
    {
    }

    private sealed class Category(LogCapture capture, string name) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => capture._scopes.Push(state);

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            var line = $"{logLevel} {name} {formatter(state, exception)} {Parts(state)} {exception}";
            capture._scopes.ForEachScope((scope, _) => line += $" [{scope} {Parts(scope)}]", state);
            capture._lines.Enqueue(line);
        }

        private static string Parts(object? state) =>
            state is IEnumerable<KeyValuePair<string, object?>> parts
                ? string.Join(' ', parts.Select(part => $"{part.Key}={part.Value}"))
                : "";
    }
}
