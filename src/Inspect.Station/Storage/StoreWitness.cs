using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Inspect.Ledger;
using Microsoft.Win32.SafeHandles;

namespace Inspect.Station.Storage;

/// <summary>What the witness says of the register.</summary>
/// <param name="Turn">Counts the statements from 1.</param>
/// <param name="Size">How many entries there were.</param>
/// <param name="Root">The root over them.</param>
/// <param name="Gap">How many numbers accepted losses had left out until then.</param>
/// <param name="Key">The fingerprint of the key that signed then.</param>
/// <param name="At">When it was written.</param>
public sealed record WitnessStatement(long Turn, long Size, TreeHash Root, long Gap, string Key, DateTimeOffset At);

/// <summary>A small file beside the store that says how far the register went. It is written after each commit and before anybody is
/// answered, so a store that lost an answered record is shorter than its witness, or other.</summary>
/// <remarks>
/// The file has two slots, written in turn and synced: when the machine stops in the middle of one, the other holds the statement before
/// it. A store that went on after its witness is the ordinary case of a crash between the two. Whoever can write to the folder can write
/// this file too; against that helps only a checkpoint that somebody keeps elsewhere.
/// </remarks>
public sealed class StoreWitness : IDisposable
{
    /// <summary>The name of the file in the data folder.</summary>
    public const string FileName = "inspect.witness";

    // A slot is written as one sector, and the two are on different pages.
    private const int SlotLength = 512;
    private const int SlotDistance = 4096;
    private const string Heading = "inspect witness 1";

    private readonly TimeProvider _time;
    private SafeFileHandle? _file;

    private StoreWitness(string folder, bool acceptsLoss, TimeProvider time)
    {
        Folder = folder;
        AcceptsLoss = acceptsLoss;
        _time = time;
        FullPath = Path.Combine(folder, FileName);
        Exists = File.Exists(FullPath);
        var slots = Exists ? Slots(FullPath) : [];
        Last = slots.OfType<WitnessStatement>().MaxBy(statement => statement.Turn);
        HasDamagedSlot = Last is not null && slots.Contains(null);
        Key = Last?.Key ?? "";
    }

    /// <summary>The folder of the store.</summary>
    public string Folder { get; }

    /// <summary>The file.</summary>
    public string FullPath { get; }

    /// <summary>Whether the person who starts the station accepts that something is missing.</summary>
    public bool AcceptsLoss { get; }

    /// <summary>Whether there was a file when the station started.</summary>
    public bool Exists { get; }

    /// <summary>Whether one of the two statements could not be read when the station started.</summary>
    public bool HasDamagedSlot { get; }

    /// <summary>The last statement; null when there is no file, or nothing in it can be read.</summary>
    public WitnessStatement? Last { get; private set; }

    /// <summary>The fingerprint of the key that signs now.</summary>
    public string Key { get; set; }

    /// <summary>The time now.</summary>
    public DateTimeOffset Now => _time.GetUtcNow();

    /// <summary>Reads the witness of a folder.</summary>
    /// <exception cref="CannotStartException">There is a key or a witness and no store, and its loss is not accepted.</exception>
    public static StoreWitness Open(string folder, bool acceptsLoss, TimeProvider time)
    {
        var witness = new StoreWitness(folder, acceptsLoss, time);
        var store = new FileInfo(Path.Combine(folder, "inspect.db"));
        witness.IsStoreMissing = (!store.Exists || store.Length == 0)
            && (witness.Exists || File.Exists(Path.Combine(folder, "station-key.pem")));
        return witness.IsStoreMissing && !acceptsLoss
            ? throw new CannotStartException($"The store, inspect.db, is missing (in \"{folder}\"): {RegisterLoss.WhatToDo}")
            : witness;
    }

    /// <summary>What the witness of a folder says; null when there is none that can be read.</summary>
    public static WitnessStatement? Read(string folder)
    {
        using var witness = new StoreWitness(folder, acceptsLoss: false, TimeProvider.System);
        return witness.Last;
    }

    /// <summary>Whether there was a key or a witness in the folder and no store.</summary>
    public bool IsStoreMissing { get; private set; }

    /// <summary>Writes a statement of a register that was committed, if it differs from the last one.</summary>
    /// <exception cref="StoreFaultException">It cannot be written.</exception>
    public void Keep(RegisterHead head, long gap)
    {
        if (Last is { } last && last.Size == head.Size && last.Gap == gap && last.Key == Key)
        {
            return;
        }

        var statement = new WitnessStatement((Last?.Turn ?? 0) + 1, head.Size, head.Edge.Root, gap, Key, Now);
        Write(statement);
        Last = statement;
    }

    /// <summary>Writes the statement into the other slot too, after that could not be read.</summary>
    public void Mend()
    {
        if (HasDamagedSlot && Last is { } last)
        {
            Last = last with { Turn = last.Turn + 1 };
            Write(Last);
        }
    }

    public void Dispose() => _file?.Dispose();

    private void Write(WitnessStatement statement)
    {
        try
        {
            _file ??= Opened();
            RandomAccess.Write(_file, Slot(statement), statement.Turn % 2 * SlotDistance);
            RandomAccess.FlushToDisk(_file);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new StoreFaultException($"The witness of the store, {FileName}, cannot be written ({error.Message}), so nothing is "
                + "confirmed: look at the data folder and its disk, then send the same again.");
        }
    }

    private SafeFileHandle Opened()
    {
        var made = File.OpenHandle(FullPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.ReadWrite);
        if (RandomAccess.GetLength(made) == 0)
        {
            RandomAccess.Write(made, new byte[SlotDistance + SlotLength], 0);
        }

        return made;
    }

    private static byte[] Slot(WitnessStatement statement)
    {
        var text = string.Create(CultureInfo.InvariantCulture,
            $"{Heading}\nturn {statement.Turn}\nsize {statement.Size}\nroot {statement.Root}\ngap {statement.Gap}\n"
            + $"key {statement.Key}\nat {UtcText.Of(statement.At)}\n");
        var slot = new byte[SlotLength];
        slot.AsSpan().Fill((byte)'\n');
        Encoding.UTF8.GetBytes($"{text}sum {Sum(text)}\n").CopyTo(slot, 0);
        return slot;
    }

    // What stands in each slot that was written; null where it cannot be read. A running station may have the file open.
    private static List<WitnessStatement?> Slots(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[SlotDistance + SlotLength];
        file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return [.. new[] { bytes[..SlotLength], bytes[SlotDistance..] }.Where(slot => slot.AsSpan().ContainsAnyExcept((byte)0))
            .Select(slot => Parse(Encoding.UTF8.GetString(slot)))];
    }

    private static WitnessStatement? Parse(string slot)
    {
        var text = slot.TrimEnd('\n') + "\n";
        if (text.Split('\n') is not [Heading, var turn, var size, var root, var gap, var key, var at, var sum, ""]
            || sum != $"sum {Sum(text[..^(sum.Length + 1)])}"
            || !TreeHash.TryParseHex(root["root ".Length..], out var hash))
        {
            return null;
        }

        return new WitnessStatement(
            Number(turn), Number(size), hash, Number(gap), key["key ".Length..], UtcText.Parse(at["at ".Length..]));
    }

    private static long Number(string line) => long.Parse(line[(line.IndexOf(' ') + 1)..], CultureInfo.InvariantCulture);

    private static string Sum(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
