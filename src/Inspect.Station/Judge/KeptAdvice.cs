using System.Security.Cryptography;
using System.Text;
using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Station.Judge;

/// <summary>All that the advice on a ball depends on.</summary>
/// <param name="Sheet">What was measured.</param>
/// <param name="Edition">The rules it was judged under.</param>
/// <param name="Verdict">What they said.</param>
/// <param name="Terms">What the event adds to the edition.</param>
public sealed record AdviceAsked(Sheet Sheet, Edition Edition, Verdict Verdict, JudgingTerms? Terms)
{
    /// <summary>Whether anything failed that could be cured.</summary>
    public bool HasFailed => Verdict.Findings.Any(finding => finding.Outcome == Outcome.Fail);

    /// <summary>The same for the same readings under the same rules: sheet, terms, and the hashes of edition and supplements. The verdict
    /// follows from these.</summary>
    public string Key => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [
        SheetJson.Write(Sheet).ToJsonString(), TermsJson.Write(Terms ?? JudgingTerms.None).ToJsonString(), $"{Verdict.Edition}",
        .. (Terms?.Supplements ?? []).Select(supplement => $"{supplement.Sha256}"),
    ]))));
}

/// <summary>What could cure failed balls: worked out for one ball at a time beside everything else, and kept for who asks next.</summary>
public sealed class KeptAdvice : IDisposable
{
    private const int Most = 64;
    private readonly SemaphoreSlim _one = new(1);
    private readonly Lock _lock = new();
    private readonly Dictionary<string, LinkedListNode<(string Key, BallAdvice Advice)>> _kept = new(StringComparer.Ordinal);

    // The one asked for last comes first.
    private readonly LinkedList<(string Key, BallAdvice Advice)> _order = [];

    /// <summary>For how many balls it is kept.</summary>
    public int Count
    {
        get
        {
            lock (_lock)
            {
                return _order.Count;
            }
        }
    }

    /// <summary>The advice on a ball where it is kept, or null.</summary>
    public BallAdvice? Find(AdviceAsked asked) => asked.HasFailed ? Find(asked.Key) : null;

    /// <summary>The advice on a ball, or null where nothing failed.</summary>
    /// <param name="asked">The ball and its rules.</param>
    /// <param name="given">Cancelled when nobody waits for it any more.</param>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    public async Task<BallAdvice?> Of(AdviceAsked asked, CancellationToken given)
    {
        ArgumentNullException.ThrowIfNull(asked);
        if (!asked.HasFailed)
        {
            return null;
        }

        var key = asked.Key;
        if (Find(key) is { } kept)
        {
            return kept;
        }

        await _one.WaitAsync(given);
        return WorkOut(key, asked, given);
    }

    /// <summary>The same for paper, which is made in one go.</summary>
    public BallAdvice? Of(AdviceAsked asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        if (!asked.HasFailed)
        {
            return null;
        }

        var key = asked.Key;
        if (Find(key) is { } kept)
        {
            return kept;
        }

        _one.Wait();
        return WorkOut(key, asked, default);
    }

    public void Dispose() => _one.Dispose();

    // Whoever comes here has the turn, and gives it up again.
    private BallAdvice WorkOut(string key, AdviceAsked asked, CancellationToken given)
    {
        try
        {
            if (Find(key) is { } meanwhile)
            {
                return meanwhile;
            }

            given.ThrowIfCancellationRequested();
            return Keep(key, Remedies.For(asked.Sheet, asked.Edition, asked.Verdict, asked.Terms));
        }
        finally
        {
            _one.Release();
        }
    }

    private BallAdvice? Find(string key)
    {
        lock (_lock)
        {
            if (!_kept.TryGetValue(key, out var node))
            {
                return null;
            }

            _order.Remove(node);
            _order.AddFirst(node);
            return node.Value.Advice;
        }
    }

    private BallAdvice Keep(string key, BallAdvice advice)
    {
        lock (_lock)
        {
            _kept[key] = _order.AddFirst((key, advice));
            if (_order.Count > Most)
            {
                _kept.Remove(_order.Last!.Value.Key);
                _order.RemoveLast();
            }

            return advice;
        }
    }
}
