using Inspect.Sheets;

namespace Inspect.Station.Record;

/// <summary>A ball as its bowler describes it. At least one of maker, model and serial is given.</summary>
/// <param name="Maker">The maker, as written.</param>
/// <param name="Model">The model, as written.</param>
/// <param name="Serial">The serial number, as written.</param>
/// <param name="Hand">The hand it is thrown with.</param>
/// <param name="Digits">The digits that grip it; empty when not said.</param>
/// <param name="Known">The ball's opaque id, where the station knows it from another event.</param>
public sealed record BallAsWritten(
    string? Maker, string? Model, string? Serial, Hand? Hand = null, IReadOnlyList<Digit>? Digits = null, string? Known = null)
{
    /// <summary>Maker, model and serial as far as they were written.</summary>
    public string Name => string.Join(' ', new[] { Maker, Model, Serial }.Where(part => part is not null));

    /// <summary>The grip in words; empty when nothing was said of it.</summary>
    public string Grip => string.Join(", ",
        new[] { Hand is { } hand ? $"{Words.Of(hand)} hand" : "", string.Join(" ", (Digits ?? []).Select(Words.Of)) }
            .Where(part => part.Length > 0));
}

/// <summary>A ball on the list of an entry.</summary>
/// <param name="Id">Its number among all that were ever entered.</param>
/// <param name="Entry">The entry on whose list it stands or stood.</param>
/// <param name="Ball">What was written of it.</param>
/// <param name="Added">Who wrote it, and when.</param>
/// <param name="Removed">Who took it off the list, and when; null while it stands there.</param>
/// <param name="LentBy">The entry that lends it; null when it is the bowler's own.</param>
/// <param name="MovedFrom">The entry where it stood before.</param>
/// <param name="MovedTo">The entry to which it was moved.</param>
/// <param name="LentTo">The entries to which it is lent now.</param>
public sealed record EnteredBall(
    long Id, string Entry, BallAsWritten Ball, ListMark Added, ListMark? Removed, string? LentBy, string? MovedFrom, string? MovedTo,
    IReadOnlyList<string> LentTo)
{
    /// <summary>Whether an inspection is of this ball: the same known ball, or the same serial number as far as it can be read.</summary>
    public bool Is(InspectionRow row) => Ball.Known is { } known && row.Ball == known
        || (Ball.Serial is { } mine && row.Serial is { } its && SerialLookAlikes.Fold(mine) is { Length: > 0 } folded
            && SerialLookAlikes.Fold(its) == folded);
}

/// <summary>Who changed a list of balls, and when.</summary>
/// <param name="By">An official's name, "the bowler", or "name struck".</param>
/// <param name="At">When.</param>
public sealed record ListMark(string By, DateTimeOffset At);
