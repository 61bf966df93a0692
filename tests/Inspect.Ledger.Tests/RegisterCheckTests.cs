using System.Text;
using System.Text.Json.Nodes;
using static Inspect.Ledger.Tests.RegisterChecking;

namespace Inspect.Ledger.Tests;

/// <summary>Every way to spoil a small register is found, and named at the entry where it was done.</summary>
/// <remarks>
/// The form is defined by this project on the tree of RFC 6962, which <see cref="MerkleTreeTests"/> holds to published roots.
/// </remarks>
public sealed class RegisterCheckTests : IDisposable
{
    private readonly ExportedRegister _register = new(6);

    public void Dispose() => _register.Dispose();

    [Fact]
    public void Check_SoundRegisterWithItsKey_IsSoundAndProven()
    {
        var finding = Check(_register.Bytes, _register.Key);

        Assert.True(finding.IsSound, finding.Sentence);
        Assert.Equal((6, true), (finding.Entries, finding.IsSignerProven));
    }

    [Fact]
    public void Check_SoundRegisterWithoutAKey_IsSoundWithTheSignerUnproven()
    {
        var finding = Check(_register.Bytes);

        Assert.True(finding.IsSound, finding.Sentence);
        Assert.False(finding.IsSignerProven);
        Assert.Contains("unproven", finding.Sentence, StringComparison.Ordinal);
        Assert.Contains(_register.Key.Fingerprint, finding.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Check_RegisterOfFewEntries_IsSound(int entries)
    {
        using var register = new ExportedRegister(entries);

        Assert.True(Check(register.Bytes, register.Key).IsSound);
    }

    [Fact]
    public void Check_LastNewlineAbsent_IsSoundSinceNothingIsLost() => Assert.True(Check(_register.Bytes[..^1]).IsSound);

    [Fact]
    public void Check_BytesThatArriveAFewAtATime_GivesTheSameAnswer()
    {
        for (var size = 1; size < 70; size++)
        {
            Assert.True(RegisterCheck.Check(new Trickle(_register.Bytes, size), _register.Key).IsSound);
        }
    }

    [Fact]
    public void Check_LinesReadInAnyOrder_GivesTheSameAnswer()
    {
        using var register = new ExportedRegister(2_000);
        var pieces = WholeLines.Of(new MemoryStream(register.Bytes)).ToList();
        var read = Enumerable.Reverse(pieces).Select(RegisterLine.In).Reverse().ToList();
        var check = new RegisterCheck(register.Key);

        read.ForEach(check.Add);

        Assert.InRange(pieces.Count, 5, 100);
        Assert.Equal(RegisterCheck.Check(new MemoryStream(register.Bytes), register.Key), check.Finish());
    }

    [Theory]
    [InlineData(0x01)]
    [InlineData(0x20)]
    [InlineData(0x80)]
    [InlineData(0xff)]
    public void Check_AnySingleByteFlipped_IsFoundInItsLine(int mask)
    {
        var sound = _register.Bytes;
        var line = 1;
        for (var i = 0; i < sound.Length; i++)
        {
            byte[] altered = [.. sound];
            altered[i] ^= (byte)mask;

            var finding = Check(altered);

            Assert.True(!finding.IsSound, $"Byte {i} of line {line} went unnoticed.");
            Assert.True(finding.Line == line, $"Byte {i} of line {line} was placed at line {finding.Line}: {finding.Sentence}");
            // The last line is no entry; nor is what becomes of it when the newline before it is lost.
            var endsLastEntry = line == _register.Entries && sound[i] == '\n';
            Assert.Equal(line <= _register.Entries && !endsLastEntry ? line : null, finding.Entry);
            line += sound[i] == '\n' ? 1 : 0;
        }
    }

    [Fact]
    public void Check_AnyByteLeftOut_IsFoundInItsLine()
    {
        var sound = _register.Bytes;
        var line = 1;
        for (var i = 0; i < sound.Length - 1; i++)
        {
            var finding = Check([.. sound[..i], .. sound[(i + 1)..]]);

            Assert.True(finding.Line == line, $"Byte {i} of line {line} was placed at line {finding.Line}: {finding.Sentence}");
            line += sound[i] == '\n' ? 1 : 0;
        }
    }

    [Fact]
    public void Check_FileCutOffAnywhere_IsFoundAtItsEnd()
    {
        var sound = _register.Bytes;
        for (var length = 0; length < sound.Length - 1; length++)
        {
            // An entry is whole when only its newline is gone.
            var whole = sound[..(length + 1)].Count(character => character == '\n');

            var finding = Check(sound[..length]);

            Assert.Equal(RegisterFault.NoCheckpoint, finding.Fault);
            Assert.Equal((whole, whole + 1), (finding.Entries, finding.Line));
        }
    }

    [Fact]
    public void Check_EachRunOfEntriesLeftOut_NamesTheFirstMissing()
    {
        for (var first = 1; first <= 6; first++)
        {
            for (var last = first; last <= 6; last++)
            {
                var finding = CheckLines([.. _register.Lines.Take(first - 1), .. _register.Lines.Skip(last)]);

                AssertBroken(RegisterFault.Missing, first, finding);
            }
        }
    }

    [Fact]
    public void Check_EachTwoEntriesSwapped_NamesTheFirstPlace()
    {
        for (var first = 1; first <= 6; first++)
        {
            for (var second = first + 1; second <= 6; second++)
            {
                List<byte[]> lines = [.. _register.Lines];
                (lines[first - 1], lines[second - 1]) = (lines[second - 1], lines[first - 1]);

                AssertBroken(RegisterFault.Swapped, first, CheckLines(lines));
            }
        }
    }

    [Fact]
    public void Check_LastLineMovedForward_NamesThePlace()
    {
        for (var place = 1; place <= 6; place++)
        {
            List<byte[]> lines = [.. _register.Lines[..^1]];
            lines.Insert(place - 1, _register.Lines[^1]);

            AssertBroken(RegisterFault.Swapped, place, CheckLines(lines));
        }
    }

    [Fact]
    public void Check_EachEntryRepeatedInEachPlace_NamesTheInsertedLine()
    {
        for (var entry = 1; entry <= 6; entry++)
        {
            for (var place = 1; place <= 7; place++)
            {
                List<byte[]> lines = [.. _register.Lines];
                lines.Insert(place - 1, _register.Lines[entry - 1]);

                var finding = CheckLines(lines);

                Assert.Equal(RegisterFault.Inserted, finding.Fault);
                // Before itself or after itself, the two lines are the same and the second is one too many.
                Assert.Equal(entry == place ? place + 1 : place, finding.Line);
            }
        }
    }

    [Fact]
    public void Check_ForgedEntryInsertedInEachPlace_NamesTheInsertedLine()
    {
        for (var place = 1; place <= 6; place++)
        {
            // The best forgery: the right number and the right hash of the entry before.
            EntryPlace.TryRead(_register.Lines[place - 1], out var truth);
            List<byte[]> lines = [.. _register.Lines];
            lines.Insert(place - 1, truth.Stamp(new JsonObject { ["kind"] = "inspection" }));

            var finding = CheckLines(lines);

            Assert.Equal((RegisterFault.Inserted, place), (finding.Fault, finding.Line));
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("{\"seq\":4}")]
    [InlineData("what is this")]
    public void Check_LineThatIsNoEntryInsertedInEachPlace_NamesTheInsertedLine(string text)
    {
        for (var place = 1; place <= 7; place++)
        {
            List<byte[]> lines = [.. _register.Lines];
            lines.Insert(place - 1, Encoding.UTF8.GetBytes(text));

            var finding = CheckLines(lines);

            Assert.Equal(place, finding.Line);
            Assert.Equal(place <= 6 ? RegisterFault.Inserted : RegisterFault.Unreadable, finding.Fault);
        }
    }

    [Fact]
    public void Check_LineAfterTheLast_NamesIt()
    {
        var finding = CheckLines([.. _register.Lines, "{}"u8.ToArray()]);

        Assert.Equal((RegisterFault.Inserted, 8), (finding.Fault, finding.Line));
    }

    [Fact]
    public void Check_EachEntryReplacedByAForgedOne_NamesIt()
    {
        for (var place = 1; place <= 6; place++)
        {
            EntryPlace.TryRead(_register.Lines[place - 1], out var truth);
            List<byte[]> lines = [.. _register.Lines];
            lines[place - 1] = truth.Stamp(new JsonObject { ["kind"] = "inspection" });

            AssertBroken(RegisterFault.Altered, place, CheckLines(lines));
        }
    }

    [Fact]
    public void Check_LineWithoutAnEnd_IsRefusedBeforeItFillsTheMemory()
    {
        var lines = _register.Bytes;
        using var endless = new MemoryStream([.. lines[..(Array.IndexOf(lines, (byte)'\n') + 1)], .. new byte[WholeLines.Longest + 1]]);

        var finding = RegisterCheck.Check(endless);

        Assert.Equal((RegisterFault.Unreadable, 2), (finding.Fault, finding.Line));
        Assert.Contains("Line 2 is longer than any entry", finding.Sentence, StringComparison.Ordinal);
    }

    // What programs do to a whole file on its way; common practice, no source.
    [Fact]
    public void Check_FileThatAProgramChangedOrThatIsAnother_SaysSoAndBlamesNoEntry()
    {
        var text = System.Text.Encoding.UTF8.GetString(_register.Bytes);

        Assert.Contains("ends in a carriage return", Said(text.Replace("\n", "\r\n", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("begins with a byte order mark", Said("\uFEFF" + text), StringComparison.Ordinal);
        Assert.Contains("may be another file", Said("<html>Sign in</html>\n"), StringComparison.Ordinal);
        Assert.Contains("may be another file", Said(
            "number,at\r\n".Replace("\r", "", StringComparison.Ordinal) + "OPEN-0001,\n\n"), StringComparison.Ordinal);
        Assert.Equal("The file is empty.", Said(""));

        static string Said(string text) => Check(System.Text.Encoding.UTF8.GetBytes(text)).Sentence;
    }
}
