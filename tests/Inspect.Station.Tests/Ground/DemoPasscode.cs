using System.Runtime.CompilerServices;
using System.Security.Cryptography;

namespace Inspect.Station.Tests.Ground;

/// <summary>One passcode for every demo station of a test run, handed over as whoever starts a station does.</summary>
public static class DemoPasscode
{
    /// <summary>The passcode of this run.</summary>
    public static string Chosen { get; } = RandomNumberGenerator.GetHexString(16);

    [ModuleInitializer]
    internal static void Choose() => Environment.SetEnvironmentVariable("INSPECT_DEMO_PASSCODE", Chosen);
}
