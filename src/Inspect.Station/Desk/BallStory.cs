namespace Inspect.Station.Desk;

/// <summary>Everything known about one ball, in the order in which it happened.</summary>
/// <param name="Ball">The ball's opaque id.</param>
/// <param name="Latest">Its latest inspection.</param>
/// <param name="Happenings">What happened, oldest first.</param>
public sealed record BallStory(string Ball, Record.FoundInspection Latest, IReadOnlyList<Happening> Happenings);

/// <summary>One dated event in a ball's story: a record, a ruling, a spot check, an alert, a photograph or a check of
/// an instrument.</summary>
public sealed record Happening
{
    /// <summary>When.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Its entry in the register, which decides the order within the same moment.</summary>
    public required long Seq { get; init; }

    /// <summary>What happened, in a few words.</summary>
    public required string Title { get; init; }

    /// <summary>The page with the details.</summary>
    public string? Href { get; init; }

    /// <summary>The short name of the event whose local time is shown.</summary>
    public required string Event { get; init; }

    /// <summary>The entry that the ball belongs to; null for something that happened to an instrument, not to the ball.</summary>
    public string? Entry { get; init; }

    /// <summary>Who did it; null once struck.</summary>
    public string? Who { get; init; }

    /// <summary>pass, fail or hold, where it is a verdict.</summary>
    public string? Outcome { get; init; }

    /// <summary>The details, one sentence each.</summary>
    public IReadOnlyList<string> Sentences { get; init; } = [];

    /// <summary>What differs from the inspection before: what, then, now.</summary>
    public IReadOnlyList<(string What, string? Then, string? Now)> Changes { get; init; } = [];

    /// <summary>What was read, with the single observations behind it.</summary>
    public IReadOnlyList<StoryReading> Readings { get; init; } = [];
}

/// <summary>One thing read, and how.</summary>
/// <param name="What">What an inspector calls it.</param>
/// <param name="Text">As typed.</param>
/// <param name="Observations">Each observation with its instrument, in words.</param>
public sealed record StoryReading(string What, string Text, IReadOnlyList<string> Observations);
