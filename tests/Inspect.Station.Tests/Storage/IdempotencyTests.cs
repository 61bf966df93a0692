using System.Text;
using Inspect.Station.Storage;

namespace Inspect.Station.Tests.Storage;

public sealed class IdempotencyTests : IDisposable
{
    private static readonly byte[] Request = Idempotency.HashOf("{\"event\":\"OPEN\"}"u8);

    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Fact]
    public async Task Find_AfterARestart_GivesTheSameBytesForTheSameRequest()
    {
        Assert.Equal((SeenBefore.No, null), await Find("p-7", "k1", Request));
        await Keep("p-7", "k1");
        _store.Restart();

        var (seen, answer) = await Find("p-7", "k1", Request);

        Assert.Equal(SeenBefore.SameRequest, seen);
        Assert.Equal(201, answer!.Status);
        Assert.Equal("the answer", Encoding.UTF8.GetString(answer.Body!));
    }

    [Fact]
    public async Task Find_AnotherRequestUnderTheKey_IsTold()
    {
        await Keep("p-7", "k1");

        Assert.Equal((SeenBefore.AnotherRequest, null), await Find("p-7", "k1", Idempotency.HashOf("other"u8)));
    }

    [Fact]
    public async Task Find_AnotherPersonsKey_IsNotSeen()
    {
        await Keep("p-7", "k1");

        Assert.Equal((SeenBefore.No, null), await Find("p-8", "k1", Request));
    }

    [Fact]
    public async Task Keep_InATurnThatFails_DoesNotUseTheKeyUp()
    {
        await Assert.ThrowsAsync<InvalidOperationException>(() => _store.Gate.Run<int>(transaction =>
        {
            Idempotency.Keep(transaction, "p-7", "k1", Request, Answer, DateTimeOffset.UnixEpoch);
            throw new InvalidOperationException();
        }));

        Assert.Equal((SeenBefore.No, null), await Find("p-7", "k1", Request));
    }

    private static KeptAnswer Answer => new(201, Encoding.UTF8.GetBytes("the answer"));

    private Task<(SeenBefore Seen, KeptAnswer? Answer)> Find(string person, string key, byte[] request) =>
        _store.Gate.Run(transaction => Idempotency.Find(transaction.Connection, transaction.Transaction, person, key, request));

    private Task<int> Keep(string person, string key) => _store.Gate.Run(transaction =>
    {
        Idempotency.Keep(transaction, person, key, Request, Answer, DateTimeOffset.UnixEpoch);
        return 0;
    });
}
