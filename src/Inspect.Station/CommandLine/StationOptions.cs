using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.CommandLine;

/// <summary>How one station is to run, as its command line says.</summary>
public sealed record StationOptions
{
    /// <summary>Where a station listens by default.</summary>
    public const string DefaultUrls = "http://127.0.0.1:5210";

    // Names that the web host and the test host pass on; the station itself does not use them.
    private static readonly string[] HostNames = ["environment", "contentRoot", "applicationName"];

    /// <summary>Where to listen: one or more URLs, separated by semicolons.</summary>
    public required string Urls { get; init; }

    /// <summary>The folder that holds everything the station keeps.</summary>
    public required string DataFolder { get; init; }

    /// <summary>Whether this is a trial: no folder was named, and the event is invented.</summary>
    public required bool IsTrial { get; init; }

    /// <summary>Whether the invented event and its sign-ins are wanted.</summary>
    public required bool Demo { get; init; }

    /// <summary>Whether the trial begins anew, without the inspections of its invented morning.</summary>
    public bool IsEmpty { get; init; }

    /// <summary>Whether a store that lost something is to go on without it, which is then an entry of the register.</summary>
    public bool AcceptsLoss { get; init; }

    /// <summary>The address that slips carry, or null for the address the station listens on.</summary>
    public Uri? PublicUrl { get; init; }

    /// <summary>A folder with further rulesets, or null.</summary>
    public string? RulesetsFolder { get; init; }

    /// <summary>The passcode of the demo sign-ins, or null when one is to be made up.</summary>
    public string? DemoPasscode { get; init; }

    /// <summary>Whether the log is written as JSON, an object a line, and not as text.</summary>
    public bool LogsJson { get; init; }

    /// <summary>What is passed on to the web host.</summary>
    public required IReadOnlyList<string> HostArguments { get; init; }

    /// <summary>Reads the command line (<c>--name value</c> or <c>--name=value</c>)
    /// and the environment; a fault is one plain sentence.</summary>
    public static bool TryParse(
        IReadOnlyList<string> arguments,
        Func<string, string?> environment,
        [NotNullWhen(true)] out StationOptions? options,
        [NotNullWhen(false)] out string? fault)
    {
        options = null;
        if (!TryRead(arguments, out var given, out var host, out fault))
        {
            return false;
        }

        Uri? publicUrl = null;
        if (given.TryGetValue("public-url", out var url) && !IsWebAddress(url, out publicUrl))
        {
            fault = $"\"{url}\" cannot be the public address: give one such as https://inspect.example.org.";
            return false;
        }

        var urls = given.GetValueOrDefault("urls", DefaultUrls);
        if (Array.Find(urls.Split(';'), each => !IsListenAddress(each)) is { } wrong)
        {
            fault = $"\"{wrong}\" is not an address to listen on: give one such as {DefaultUrls}.";
            return false;
        }

        var log = given.GetValueOrDefault("log", "text");
        if (log is not ("text" or "json"))
        {
            fault = $"\"{log}\" is not a form of the log: give text or json.";
            return false;
        }

        var isTrial = !given.TryGetValue("data", out var folder);
        if (!isTrial && given.ContainsKey("empty"))
        {
            fault = "\"--empty\" begins the trial station anew; a station with --data keeps what it has.";
            return false;
        }

        folder ??= TrialFolder(environment);
        if (folder is null)
        {
            fault = "There is no home folder to keep a trial station in: name a folder with --data.";
            return false;
        }

        options = new StationOptions
        {
            Urls = urls,
            DataFolder = Path.GetFullPath(folder),
            IsTrial = isTrial,
            Demo = isTrial || given.ContainsKey("demo"),
            IsEmpty = given.ContainsKey("empty"),
            AcceptsLoss = given.ContainsKey("accept-loss"),
            PublicUrl = publicUrl,
            RulesetsFolder = given.TryGetValue("rulesets", out var rulesets) ? Path.GetFullPath(rulesets) : null,
            DemoPasscode = environment("INSPECT_DEMO_PASSCODE") is { Length: > 0 } passcode ? passcode : null,
            LogsJson = log == "json",
            HostArguments = host,
        };
        return true;
    }

    private static bool TryRead(
        IReadOnlyList<string> arguments,
        out Dictionary<string, string> given,
        out List<string> host,
        [NotNullWhen(false)] out string? fault)
    {
        given = [];
        host = [];
        for (var i = 0; i < arguments.Count; i++)
        {
            var (name, value) = Split(arguments[i]);
            if (Array.Exists(HostNames, each => string.Equals(each, name, StringComparison.OrdinalIgnoreCase)) && value is not null)
            {
                host.Add(arguments[i]);
                continue;
            }

            if (name is "demo" or "empty" or "accept-loss")
            {
                value ??= "true";
            }
            else if (name is not ("urls" or "data" or "public-url" or "rulesets" or "log"))
            {
                fault = $"\"{arguments[i]}\" is not an option of the station: \"help\" lists them.";
                return false;
            }
            else if (value is null && i + 1 < arguments.Count && !arguments[i + 1].StartsWith("--", StringComparison.Ordinal))
            {
                value = arguments[++i];
            }

            if (string.IsNullOrWhiteSpace(value))
            {
                fault = $"\"--{name}\" needs a value after it.";
                return false;
            }

            if (!given.TryAdd(name, value))
            {
                fault = $"\"--{name}\" is given twice: once is enough.";
                return false;
            }
        }

        fault = null;
        return true;
    }

    private static (string? Name, string? Value) Split(string argument)
    {
        if (!argument.StartsWith("--", StringComparison.Ordinal))
        {
            return (null, null);
        }

        var equals = argument.IndexOf('=', StringComparison.Ordinal);
        return equals < 0 ? (argument[2..], null) : (argument[2..equals], argument[(equals + 1)..]);
    }

    private static bool IsWebAddress(string text, [NotNullWhen(true)] out Uri? address) =>
        Uri.TryCreate(text, UriKind.Absolute, out address)
        && (address.Scheme == Uri.UriSchemeHttp || address.Scheme == Uri.UriSchemeHttps)
        && address.Query.Length == 0
        && address.Fragment.Length == 0;

    // "*" and "+" stand for every address of the machine, which the server understands and a URI does not.
    private static bool IsListenAddress(string text) =>
        IsWebAddress(text.Replace("//*", "//0.0.0.0", StringComparison.Ordinal)
            .Replace("//+", "//0.0.0.0", StringComparison.Ordinal), out _);

    private static string? TrialFolder(Func<string, string?> environment)
    {
        var home = environment("XDG_DATA_HOME") is { Length: > 0 } named && Path.IsPathRooted(named)
            ? named
            : Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return home.Length == 0 ? null : Path.Combine(home, "inspect", "trial");
    }
}
