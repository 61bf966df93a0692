using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Instruments;

/// <summary>One instrument with its history, its checks and its studies.</summary>
public sealed class WholeInstrument(Database database, InstrumentBook book, People people, Events events, TimeProvider time)
{
    /// <summary>The page, with what is wrong with what was sent.</summary>
    public RazorComponentResult<InstrumentPage> Page(Instrument found, SignedIn viewer, Faults faults)
    {
        using var connection = database.OpenForReading();
        var now = time.GetUtcNow();
        var present = InstrumentPages.Present(events, now);
        return new RazorComponentResult<InstrumentPage>(new
        {
            Standing = InstrumentStanding.All(connection).First(one => one.Instrument.Name == found.Name),
            History = book.History(found.Name),
            Checks = Checks.Of(connection, found.Name),
            Studies = GaugeStudies.Of(connection, found.Name),
            NameOf = (Func<PersonId, string?>)people.NameOf,
            Viewer = viewer,
            Present = present,
            Now = now,
            Rule = present is null ? CheckRule.Usual : CheckRule.Of(connection, present.Id),
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }
}
