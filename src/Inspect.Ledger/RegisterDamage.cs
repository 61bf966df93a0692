namespace Inspect.Ledger;

/// <summary>Finds out what happened to a register where a line is not the one that belongs there. It looks
/// at that line and the two after it.</summary>
/// <remarks>
/// Two signs are read. Is the number the one that comes next? Does the line name the hash of the entry before it? The line after gives
/// evidence too: it names the hash of the line that it followed when it was recorded.
/// </remarks>
internal sealed record RegisterDamage(RegisterFault Fault, long Line, long? Entry, string Sentence)
{
    /// <summary>Names the damage.</summary>
    /// <param name="expected">The place that comes next after everything that was in order so far.</param>
    /// <param name="line">The line found there, which does not belong there.</param>
    /// <param name="next">The line after it, if there is one.</param>
    /// <param name="nextButOne">The line after that one, if there is one.</param>
    public static RegisterDamage Find(EntryPlace expected, RegisterLine line, RegisterLine? next, RegisterLine? nextButOne)
    {
        var followsNext = next?.Place == expected;
        if (line.Closing is not null)
        {
            return followsNext
                ? new(
                    RegisterFault.Swapped,
                    line.Number,
                    expected.Seq,
                    $"The signed checkpoint is before entry {expected.Seq}, and belongs after the last.")
                : new(
                    RegisterFault.Inserted,
                    line.Number + 1,
                    null,
                    $"Line {line.Number + 1} follows the signed checkpoint, which should be the last line.");
        }

        if (line.Place is not { } place)
        {
            return Unreadable(expected, line, next, followsNext);
        }

        if (place.Seq == expected.Seq || place.Prior == expected.Prior)
        {
            return followsNext ? Inserted(expected, line) : OneSignWrong(expected, line, place, next);
        }

        if (place.Seq == expected.Seq - 1)
        {
            return Repeated(expected, line, next);
        }

        if (next?.Seq == expected.Seq)
        {
            // Two neighbours changed places, unless the later one also follows in its own place.
            return place.Seq == expected.Seq + 1 && nextButOne?.Seq != place.Seq
                ? Swapped(expected, line, place)
                : Inserted(expected, line);
        }

        if (next?.Seq == expected.Seq + 1 || CountsAsExpected(next, expected))
        {
            return Swapped(expected, line, place);
        }

        return place.Seq > expected.Seq ? Missing(expected, line, place) : Inserted(expected, line);
    }

    private static RegisterDamage Unreadable(EntryPlace expected, RegisterLine line, RegisterLine? next, bool followsNext) => next is null
        ? new(
            RegisterFault.NoCheckpoint,
            line.Number,
            null,
            $"Line {line.Number} {line.Problem}, and nothing follows it: "
            + $"the file was cut off, or its end altered, after entry {expected.Seq - 1}.")
        : followsNext
            ? new(
                RegisterFault.Inserted,
                line.Number,
                expected.Seq,
                $"Line {line.Number} was inserted before entry {expected.Seq}: it {line.Problem}.")
            : new(RegisterFault.Unreadable, line.Number, expected.Seq, $"Entry {expected.Seq} {line.Problem}.");

    // Number or hash is right and the other is not, so an entry was altered. It is this one, or the one before it if the next line still
    // fits this one.
    private static RegisterDamage OneSignWrong(EntryPlace expected, RegisterLine line, EntryPlace place, RegisterLine? next)
    {
        var before = expected.Seq - 1;
        if (place.Seq == expected.Seq && before > 0 && next?.Prior == line.Hash)
        {
            return new(
                RegisterFault.Altered,
                line.Number - 1,
                before,
                $"Entry {before} was altered: entry {expected.Seq} names another hash for it.");
        }

        return new(
            RegisterFault.Altered,
            line.Number,
            expected.Seq,
            place.Seq == expected.Seq
                ? $"Entry {expected.Seq} was altered: it does not name the hash of the entry before it."
                : $"Entry {expected.Seq} was altered: it gives itself the number {place.Seq}.");
    }

    // A number occurs twice. The next line fits the one that was recorded.
    private static RegisterDamage Repeated(EntryPlace expected, RegisterLine line, RegisterLine? next)
    {
        var before = expected.Seq - 1;
        var inserted = next?.Prior == line.Hash && line.Hash != expected.Prior ? line.Number - 1 : line.Number;
        return new(
            RegisterFault.Inserted,
            inserted,
            before,
            $"Line {inserted} was inserted: it is a second entry with the number {before}.");
    }

    private static RegisterDamage Missing(EntryPlace expected, RegisterLine line, EntryPlace place) => new(
        RegisterFault.Missing,
        line.Number,
        expected.Seq,
        expected.Seq == place.Seq - 1
            ? $"Entry {expected.Seq} is missing: entry {place.Seq} is in its place."
            : $"Entries {expected.Seq} to {place.Seq - 1} are missing: entry {place.Seq} is in their place.");

    private static RegisterDamage Swapped(EntryPlace expected, RegisterLine line, EntryPlace place) =>
        new(RegisterFault.Swapped, line.Number, expected.Seq, $"Entry {place.Seq} is where entry {expected.Seq} belongs.");

    private static RegisterDamage Inserted(EntryPlace expected, RegisterLine line) =>
        new(RegisterFault.Inserted, line.Number, expected.Seq, $"Line {line.Number} was inserted before entry {expected.Seq}.");

    // At the end of the file, the checkpoint's count shows whether the entry is in the wrong place or others are missing before it.
    private static bool CountsAsExpected(RegisterLine? next, EntryPlace expected) =>
        next?.Closing is { } closing
        && Checkpoint.TryParse(closing.Checkpoint, out var checkpoint, out _)
        && checkpoint.Size == expected.Seq;
}
