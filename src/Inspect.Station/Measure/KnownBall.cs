using System.Globalization;
using Inspect.Sheets;
using Inspect.Station.Prepare;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>Fills in a measuring form what is already known of the ball, never what is measured.</summary>
internal static class KnownBall
{
    /// <summary>The fields and their values.</summary>
    /// <param name="held">The event.</param>
    /// <param name="entry">Whose ball it is.</param>
    /// <param name="before">An earlier inspection of the same ball.</param>
    /// <param name="isReplaced">Whether the new inspection replaces that one. Otherwise the ball is shown with another
    /// grip, or at another event.</param>
    /// <param name="lastBall">The bowler's ball before this one at the event, whose grip a new ball has too until somebody says
    /// otherwise.</param>
    /// <param name="time">Tells the day at the venue.</param>
    /// <param name="hasLists">Whether the event reads lists of models, which then answer what is published of the model.</param>
    public static Dictionary<string, string> Of(
        Event held, Entry entry, Inspection? before, bool isReplaced, Inspection? lastBall, TimeProvider time, bool hasLists)
    {
        var isHere = before is not null && before.Event == held.Id && before.Entry == entry.Number;
        var (ball, grip) = (before?.Sheet.Ball, isHere && !isReplaced ? null : (before ?? lastBall)?.Sheet.Grip);
        var today = held.DayAt(time.GetUtcNow());
        var play = today < held.From ? held.From : today > held.To ? held.To : today;
        var known = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["play"] = play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        };
        Add(known, "ball.maker", ball?.Maker);
        Add(known, "ball.model", ball?.Model);
        Add(known, "ball.serial", ball?.Serial);
        Add(known, "ball.made", ball?.Made?.Text);
        // The list of approved balls may have changed since another event.
        Add(known, "ball.listed", isHere && !hasLists && ball?.Listed is { } listed ? Words.Of(listed) : null);
        // Published for the model, not measured on this ball.
        Add(known, "ball.oilAbsorption", ball?.OilAbsorption?.Text);
        Add(known, "ball.highPerformanceCore", ball?.HighPerformanceCore is { } isHigh ? isHigh ? "yes" : "no" : null);
        var declared = hasLists ? null : ball?.Declared;
        Add(known, "ball.declared.rg", declared?.Rg?.Text);
        Add(known, "ball.declared.differential", declared?.Differential?.Text);
        Add(known, "ball.declared.intermediate", declared?.Intermediate?.Text);
        Add(known, "grip.hand", grip?.Hand is { } hand ? Words.Of(hand) : null);
        Add(known, "grip.digits", grip?.Digits is { } digits ? string.Join(' ', digits.Select(Words.Of)) : null);
        return known;
    }

    /// <summary>Adds what the bowler wrote of the ball on the list, over what is known otherwise.</summary>
    public static void Add(Dictionary<string, string> known, BallAsWritten? ball)
    {
        Add(known, "ball.maker", ball?.Maker);
        Add(known, "ball.model", ball?.Model);
        Add(known, "ball.serial", ball?.Serial);
        Add(known, "grip.hand", ball?.Hand is { } hand ? Words.Of(hand) : null);
        Add(known, "grip.digits", ball?.Digits is { Count: > 0 } digits ? string.Join(' ', digits.Select(Words.Of)) : null);
    }

    private static void Add(Dictionary<string, string> known, string field, string? value)
    {
        if (value is not null)
        {
            known[field] = value;
        }
    }
}
