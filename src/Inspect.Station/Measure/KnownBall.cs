using System.Globalization;
using Inspect.Rules.Sheets;
using Inspect.Station.Prepare;

namespace Inspect.Station.Measure;

/// <summary>What a measuring form may be filled with beforehand: what is known, never what is measured.</summary>
internal static class KnownBall
{
    /// <summary>The fields and their values; of an earlier inspection the ball's identity and the grip.</summary>
    public static Dictionary<string, string> Of(Event held, Sheet? earlier, TimeProvider time)
    {
        var today = held.DayAt(time.GetUtcNow());
        var play = today < held.From ? held.From : today > held.To ? held.To : today;
        var known = new Dictionary<string, string>(StringComparer.Ordinal) { ["play"] = play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) };
        Add(known, "ball.maker", earlier?.Ball?.Maker);
        Add(known, "ball.model", earlier?.Ball?.Model);
        Add(known, "ball.serial", earlier?.Ball?.Serial);
        Add(known, "ball.made", earlier?.Ball?.Made?.Text);
        Add(known, "ball.listed", earlier?.Ball?.Listed is { } listed ? Words.Of(listed) : null);
        Add(known, "grip.hand", earlier?.Grip?.Hand is { } hand ? Words.Of(hand) : null);
        Add(known, "grip.digits", earlier?.Grip?.Digits is { } digits ? string.Join(' ', digits.Select(Words.Of)) : null);
        return known;
    }

    private static void Add(Dictionary<string, string> known, string field, string? value)
    {
        if (value is not null)
        {
            known[field] = value;
        }
    }
}
