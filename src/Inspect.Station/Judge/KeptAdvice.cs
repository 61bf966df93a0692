using System.Collections.Concurrent;
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
    public string Key => field ??= Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [
        SheetJson.Write(Sheet).ToJsonString(), TermsJson.Write(Terms ?? JudgingTerms.None).ToJsonString(), $"{Verdict.Edition}",
        .. (Terms?.Supplements ?? []).Select(supplement => $"{supplement.Sha256}"),
    ]))));
}

/// <summary>What could cure failed balls: worked out for one ball at a time beside everything else, and kept for who asks next.</summary>
public sealed class KeptAdvice : IDisposable
{
    private const int Most = 64;

    private readonly SemaphoreSlim _one = new(1);
    private readonly ConcurrentDictionary<string, BallAdvice> _kept = new(StringComparer.Ordinal);

    // Oldest first; only whoever has the turn adds to it.
    private readonly Queue<string> _order = new();

    /// <summary>For how many balls it is kept.</summary>
    public int Count => _kept.Count;

    /// <summary>The advice on a ball where it is kept, or null.</summary>
    public BallAdvice? Find(AdviceAsked asked) => asked.HasFailed ? _kept.GetValueOrDefault(asked.Key) : null;

    /// <summary>The advice on a ball, or null where nothing failed.</summary>
    /// <param name="asked">The ball and its rules.</param>
    /// <param name="given">Cancelled when nobody waits for it any more.</param>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    public async Task<BallAdvice?> Of(AdviceAsked asked, CancellationToken given)
    {
        var kept = Find(asked);
        if (!asked.HasFailed || kept is not null)
        {
            return kept;
        }

        await _one.WaitAsync(given);
        return WorkOut(asked, given);
    }

    /// <summary>The same for paper, which is made in one go.</summary>
    public BallAdvice? Of(AdviceAsked asked)
    {
        var kept = Find(asked);
        if (!asked.HasFailed || kept is not null)
        {
            return kept;
        }

        _one.Wait();
        return WorkOut(asked, default);
    }

    public void Dispose() => _one.Dispose();

    // Whoever comes here has the turn, and gives it up again.
    private BallAdvice WorkOut(AdviceAsked asked, CancellationToken given)
    {
        try
        {
            given.ThrowIfCancellationRequested();
            if (Find(asked) is { } meanwhile)
            {
                return meanwhile;
            }

            var advice = Remedies.For(asked.Sheet, asked.Edition, asked.Verdict, asked.Terms, given);
            _kept[asked.Key] = advice;
            _order.Enqueue(asked.Key);
            if (_order.Count > Most)
            {
                _kept.Remove(_order.Dequeue(), out _);
            }

            return advice;
        }
        finally
        {
            _one.Release();
        }
    }
}
