namespace Inspect.Station.CommandLine;

/// <summary>A word that may come first on the command line: what it does, and the work, which returns the exit code.</summary>
public sealed record Verb(string Name, string Does, Func<IReadOnlyList<string>, int> Run);
