namespace Inspect.Ledger;

/// <summary>Checks an exported register against its signed checkpoint and names the first broken entry. It reads the file once and keeps
/// only a few lines in memory. Lines may be read on several processors; they are checked in order.</summary>
/// <remarks>
/// <para>
/// How the place of a damage is found. The root that is signed at the end shows every change, but not where it is. So each entry's body
/// names its own number and the leaf hash of the entry before it, and the last line names the hash of the last entry
/// (<see cref="EntryPlace"/>). Where two neighbours disagree, the line after them shows which of the two was changed: it still fits the
/// other one. Number and hash together tell an altered entry from a missing, swapped or inserted one (<see cref="RegisterDamage"/>).
/// </para>
/// <para>
/// A list of all leaf hashes in the last line would do without these members. But it would grow with the register, the check would have to
/// keep it all in memory, and a single entry would not show where it belongs.
/// </para>
/// <para>
/// What this cannot do. If somebody rewrites an entry and every entry after it to fit, the signed root shows it, but not where: nothing
/// signed says what was there before. And without a key from another source the check only shows that the file agrees with itself: the
/// signer is then called unproven.
/// </para>
/// </remarks>
/// <param name="trusted">The station's key, or an older one, from a source other than the file; null when there is none.</param>
public sealed class RegisterCheck(PublicKey? trusted = null)
{
    // A line is checked once the two lines after it are known.
    private readonly Queue<RegisterLine> _waiting = new();
    private RegisterHead _head = RegisterHead.Empty;
    private long _lines;
    private RegisterFinding? _finding;

    /// <summary>Whether the result is known, so that no further line changes it.</summary>
    public bool IsDecided => _finding is not null;

    /// <summary>Checks a whole export.</summary>
    public static RegisterFinding Check(Stream export, PublicKey? trusted = null)
    {
        var check = new RegisterCheck(trusted);
        foreach (var piece in WholeLines.Of(export))
        {
            check.Add(RegisterLine.In(piece));
        }

        return check.Finish();
    }

    /// <summary>Takes the next lines of the export, in its order.</summary>
    public void Add(IEnumerable<RegisterLine> lines)
    {
        foreach (var line in lines)
        {
            if (IsDecided)
            {
                return;
            }

            _lines = line.Number;
            if (line.IsEndless)
            {
                _finding = Broken(
                    RegisterFault.Unreadable, _lines, _lines, $"Line {_lines} is longer than any entry: it should end within 16 MiB.");
                return;
            }

            _waiting.Enqueue(line);
            if (_waiting.Count == 3)
            {
                JudgeFirst();
            }
        }
    }

    /// <summary>Gives the result, after the last lines.</summary>
    public RegisterFinding Finish()
    {
        while (_finding is null && _waiting.Count > 0)
        {
            JudgeFirst();
        }

        return _finding ??= Broken(
            RegisterFault.NoCheckpoint,
            _lines + 1,
            null,
            _lines == 0 ? "The file is empty." : $"The file ends after entry {_head.Size} without a signed checkpoint: it was cut off.");
    }

    private void JudgeFirst() => Judge(_waiting.Dequeue(), _waiting.ElementAtOrDefault(0), _waiting.ElementAtOrDefault(1));

    private void Judge(RegisterLine line, RegisterLine? next, RegisterLine? nextButOne)
    {
        if (line.Closing is { } closing && next is null)
        {
            _finding = JudgeClosing(line, closing);
        }
        else if (line.Place == _head.Next)
        {
            _head = _head.Append(line.Hash);
        }
        else
        {
            var damage = RegisterDamage.Find(_head.Next, line, next, nextButOne);
            _finding = Broken(damage.Fault, damage.Line, damage.Entry, damage.Sentence);
        }
    }

    private RegisterFinding JudgeClosing(RegisterLine line, RegisterClosing closing)
    {
        if (!Checkpoint.TryParse(closing.Checkpoint, out var checkpoint, out var signed)
            || signed.Signatures != 1
            || checkpoint.Origin != closing.Key.Name
            || !signed.IsSignedBy(closing.Key))
        {
            return Broken(
                RegisterFault.WrongSignature,
                line.Number,
                null,
                "The last line was altered: its signature does not fit its checkpoint and key.");
        }

        var count = _head.Size;
        if (checkpoint.Size > count)
        {
            return Broken(
                RegisterFault.Missing,
                line.Number,
                count + 1,
                $"Entry {count + 1} is missing: the signed checkpoint counts {checkpoint.Size} entries.");
        }

        if (checkpoint.Size < count)
        {
            var extra = checkpoint.Size + 1;
            return Broken(
                RegisterFault.Inserted, extra, extra, $"Entry {extra} was added: the signed checkpoint counts {checkpoint.Size} entries.");
        }

        var agrees = checkpoint.Root == _head.Edge.Root;
        if (closing.Prior != _head.Next.Prior)
        {
            return agrees || count == 0
                ? Broken(RegisterFault.Altered, line.Number, null, "The last line was altered: it does not name the last entry's hash.")
                : Broken(
                    RegisterFault.Altered, line.Number - 1, count, $"Entry {count} was altered: the last line names another hash for it.");
        }

        if (!agrees)
        {
            return Broken(
                RegisterFault.CheckpointDiffers,
                line.Number,
                null,
                "The entries agree with one another but not with the signed checkpoint: they were rewritten after it was signed.");
        }

        return trusted is not null && !closing.IsVouchedForBy(trusted)
            ? Broken(
                RegisterFault.WrongSigner,
                line.Number,
                null,
                $"The checkpoint is signed by a key with fingerprint {closing.Key.Fingerprint}, which the key you gave does not vouch for.")
            : Sound(closing.Key);
    }

    private RegisterFinding Sound(PublicKey key) => new(
        _head.Size,
        null,
        null,
        null,
        trusted is null
            ? $"The {_head.Size} entries agree with their checkpoint; the signer is unproven, fingerprint {key.Fingerprint}."
            : $"The {_head.Size} entries agree with their checkpoint, signed by the key you gave.",
        key,
        trusted is not null);

    private RegisterFinding Broken(RegisterFault fault, long line, long? entry, string sentence) =>
        new(Math.Min(_head.Size, line - 1), fault, line, entry, sentence, null, false);
}
