using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The last three hours at the two tables of the invented event, so that a trial station shows what its pages are for.</summary>
/// <remarks>Everything is recorded as the forms record it: judged, appended to the register, and ruled on. Only the clock is set back.
/// Makers and models are invented.</remarks>
internal sealed class DemoMorning
{
    private const int Bowlers = 13;
    private const int BallsEach = 3;

    private static readonly TimeSpan Length = TimeSpan.FromHours(3);

    private static readonly (string Maker, string Model)[] Models =
    [
        ("Ostrava Kiln", "Nightjar"), ("Ostrava Kiln", "Brass Heron"), ("Fenwick Lathe", "Marsh Candle"), ("Fenwick Lathe", "Low Ferry"),
        ("Tamsin and Rook", "Sable Fern"), ("Quarrymill", "Copper Psalm"),
    ];

    // What differs from a legal ball, by the number of the ball in the order of the day.
    private static readonly Dictionary<int, Action<JsonObject>> Unusual = new()
    {
        [4] = sheet => sheet["weights"]!["leftRight"] = "-3 1/4 oz",
        [8] = sheet => sheet["ball"]!["listed"] = "unknown",
        [13] = sheet => sheet["holes"]![1]!["depth"] = "4 3/4 in",
        [17] = sheet => sheet["size"]!["circumference"] = "27.05 in",
        [20] = sheet => sheet["weights"]!.AsObject().Remove("fingerThumb"),
        [26] = sheet => sheet["marks"]!["foreignMaterial"] = true,
        [29] = sheet => sheet["ball"]!["listed"] = "unknown",
        [33] = sheet => sheet["weights"]!["topBottom"] = "3 1/2 oz",
    };

    private readonly WriteGate _gate;
    private readonly BowlerQueue _queue;
    private readonly Clock _clock;
    private readonly Inspections _inspections;
    private readonly Rulings _rulings;
    private readonly Calls _calls;
    private readonly Event _held;

    // Whose ball it was, by the number of the ball.
    private readonly Dictionary<int, string> _entries = [];

    /// <summary>Prepares to record into an event that has no inspections yet.</summary>
    public DemoMorning(IServiceProvider services, Event held)
    {
        _held = held;
        _gate = services.GetRequiredService<WriteGate>();
        _clock = new Clock(services.GetRequiredService<TimeProvider>().GetUtcNow() - Length);
        _queue = ActivatorUtilities.CreateInstance<BowlerQueue>(services, _clock);
        _inspections = ActivatorUtilities.CreateInstance<Inspections>(services, _clock);
        _rulings = ActivatorUtilities.CreateInstance<Rulings>(services, _clock);
        _calls = ActivatorUtilities.CreateInstance<Calls>(services, _clock);
    }

    /// <summary>Records the morning. The inspector's sign-in and the director's record; the director rules.</summary>
    public async Task Record(SignedIn inspector, SignedIn director)
    {
        await AddInstruments(director.Person);
        await _calls.OpenTable(_held, inspector.Person, "Table 1");
        await _calls.OpenTable(_held, director.Person, "Table 2");
        foreach (var (entry, _, _) in DemoEvent.Entries.Take(Bowlers + 4))
        {
            await _calls.MarkIn(_held, entry);
        }

        var step = (Length - TimeSpan.FromMinutes(5)) / (Bowlers * BallsEach);
        for (var bowler = 0; bowler < Bowlers; bowler++)
        {
            var by = bowler % 2 == 0 ? inspector : director;
            var entry = await Call(by);
            for (var i = 0; i < BallsEach; i++)
            {
                _clock.Forward(step);
                await Ball((bowler * BallsEach) + i, entry, by);
            }
        }

        await Afterwards(inspector, director);
        await Call(director);
    }

    /// <summary>What was decided on some of these balls.</summary>
    private async Task Afterwards(SignedIn inspector, SignedIn director)
    {
        // The ball that was too heavy on the left comes back from the shop.
        var cured = Request(4, Entry(4));
        cured["sheet"]!["weights"]!["leftRight"] = "-2 1/2 oz";
        (cured["supersedes"], cured["workDone"]) = (Number(4), "Thumb plugged and drilled again");
        await Taken(4, cured, director);
        await Rule(director, 8, "allow", "The list was printed before this model was added", "until the list of the day is here");
        await _rulings.Undo(inspector, Inspection(36), "Two readings were swapped");
        var corrected = Request(36, Entry(36));
        corrected["supersedes"] = Number(36);
        await Taken(36, corrected, inspector);
        await Rule(director, 30, "withdraw", "Recorded for a ball that stays at home");

        // Whatever scale 2 weighed since its last good check is measured again.
        await Check(director, "Scale 2", "103 g");
        _clock.Forward(TimeSpan.FromMinutes(1));
    }

    private async Task AddInstruments(PersonId by)
    {
        Instrument[] all =
        [
            new() { Name = "Scale 1", Kind = InstrumentKind.Scale, Resolution = Size("0.1 oz", Quantity.Weight) },
            new() { Name = "Scale 2", Kind = InstrumentKind.Scale, Resolution = Size("0.1 oz", Quantity.Weight) },
            new() { Name = "Caliper 1", Kind = InstrumentKind.Caliper, Resolution = Size("0.001 in", Quantity.Length) },
        ];
        await _gate.Run(write => all.Count(one => InstrumentBook.TryAdd(write, one with { By = by, At = _clock.GetUtcNow() })));
        foreach (var scale in all.Where(one => one.Kind == InstrumentKind.Scale))
        {
            await _gate.Run(write => MeasuredWith.Check(write, scale, Weighed(scale, "100 g"), by, _clock.GetUtcNow()));
        }
    }

    private Task<long> Check(SignedIn by, string name, string shows) => _gate.Run(write =>
    {
        var scale = InstrumentBook.Find(write.Connection, name, write.Transaction)!;
        return MeasuredWith.Check(write, scale, Weighed(scale, shows), by.Person, _clock.GetUtcNow());
    });

    // A weight of 100 g in class M1 may itself be 5 mg off: OIML R 111-1, table 1.
    private static CheckOutcome Weighed(Instrument scale, string shows) => CheckOfScale.Judge(
        scale.Resolution!.Value,
        [new CheckedPoint("100 g weight of class M1", 100, 0.005m, [Size(shows, Quantity.Weight)])],
        Unit.Gram);

    private static Reading Size(string text, Quantity quantity) => ReadingParser.Parse(text, quantity).Reading!;

    private async Task<string> Call(SignedIn by)
    {
        var at = _queue.Of(_held).At(by.Person)?.Id ?? 0;
        return await _calls.Next(_held, by.Person, at) is CallResult.Called called ? called.Entry
            : throw new InvalidOperationException("Nobody waits in the demo.");
    }

    private Task Ball(int i, string entry, SignedIn by)
    {
        _entries[i] = entry;
        var request = Request(i, entry);
        Unusual.GetValueOrDefault(i)?.Invoke(request["sheet"]!.AsObject());
        return Taken(i, request, by);
    }

    private string Entry(int i) => _entries[i];

    /// <summary>The number of a ball's inspection: balls are recorded one after the other.</summary>
    private InspectionNumber Inspection(int i) => new(_held.Id, i + 1);

    private string Number(int i) => Inspection(i).ToString();

    private async Task Taken(int i, JsonObject request, SignedIn by)
    {
        InUse.Name(request, (_, kind) => kind switch
        {
            InstrumentKind.Scale => i % 13 == 12 ? "Scale 2" : "Scale 1",
            InstrumentKind.Caliper => "Caliper 1",
            _ => "",
        });
        var bytes = Encoding.UTF8.GetBytes(request.ToJsonString());
        if (await _inspections.Record(by, RandomNumberGenerator.GetHexString(32, lowercase: true), bytes) is RecordResult.Refused refused)
        {
            throw new InvalidOperationException(string.Join(' ', refused.Faults.All.Select(fault => $"{fault.Path}: {fault.Message}")));
        }
    }

    private async Task Rule(SignedIn director, int i, string decision, string reason, string? condition = null)
    {
        var request = new JsonObject { ["decision"] = decision, ["reason"] = reason };
        if (condition is not null)
        {
            request["condition"] = condition;
        }

        var bytes = Encoding.UTF8.GetBytes(request.ToJsonString());
        if (await _rulings.Record(director, Inspection(i), RandomNumberGenerator.GetHexString(32, lowercase: true), bytes)
            is DecideResult.Refused refused)
        {
            throw new InvalidOperationException(string.Join(' ', refused.Faults.All.Select(fault => fault.Message)));
        }
    }

    private JsonObject Request(int i, string entry)
    {
        var (maker, model) = Models[i % Models.Length];
        var sheet = new JsonObject
        {
            ["play"] = Day(_held.DayAt(_clock.GetUtcNow())),
            ["grip"] = new JsonObject { ["hand"] = i % 9 < 3 ? "left" : "right", ["digits"] = Words("thumb", "middle", "ring") },
            ["ball"] = new JsonObject
            {
                ["maker"] = maker,
                ["model"] = model,
                ["serial"] = FormattableString.Invariant($"{(i * 7919 % 9) + 1}{(char)('A' + (i * 5 % 26))}{10000 + (i * 6173 % 89999)}"),
                ["listed"] = "yes",
                ["made"] = FormattableString.Invariant($"{2021 + (i % 5)}"),
            },
            ["marks"] = new JsonObject
            {
                ["modelReadable"] = true,
                ["serialReadable"] = true,
                ["foreignMaterial"] = false,
                ["surfacePattern"] = false,
            },
            ["weights"] = new JsonObject
            {
                ["gross"] = FormattableString.Invariant($"{13 + (i % 3)} lb {i * 7 % 16} oz"),
                ["topBottom"] = Quarters((i * 5 % 10) + 1),
                ["leftRight"] = Quarters((i * 7 % 19) - 9),
                ["fingerThumb"] = Quarters((i * 3 % 15) - 7),
            },
            ["size"] = new JsonObject
            {
                ["diameters"] = Words(
                    FormattableString.Invariant($"{8.56m + (i * 3 % 25 / 1000m):0.000} in"),
                    FormattableString.Invariant($"{8.56m + (i * 3 % 25 / 1000m) + (i % 5 / 1000m):0.000} in")),
                ["circumference"] = FormattableString.Invariant($"{26.86m + (i * 7 % 12 / 100m):0.00} in"),
            },
            ["holes"] = new JsonArray(
                Hole("thumb", FormattableString.Invariant($"{29 + (i % 3)}/32 in"), "2 1/2 in"),
                Hole("middle", "7/8 in", "1 7/8 in"),
                Hole("ring", "27/32 in", "1 7/8 in")),
        };
        return new JsonObject { ["event"] = _held.Id, ["entry"] = entry, ["sheet"] = sheet };
    }

    private static JsonObject Hole(string digit, string diameter, string depth) => new()
    {
        ["kind"] = "grip",
        ["digit"] = digit,
        ["diameter"] = diameter,
        ["depth"] = depth,
        ["secondaryHole"] = false,
    };

    private static JsonArray Words(params string[] words) => [.. words.Select(word => (JsonNode)word)];

    private static string Quarters(int count) => FormattableString.Invariant($"{count / 4m:0.##} oz");

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A clock that goes on when it is told to.</summary>
    private sealed class Clock(DateTimeOffset from) : TimeProvider
    {
        private DateTimeOffset _now = from;

        public void Forward(TimeSpan by) => _now += by;

        public override DateTimeOffset GetUtcNow() => _now;
    }
}
