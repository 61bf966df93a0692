using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>Fills a trial station: the invented event, and two sign-ins with one passcode.</summary>
public sealed class Demo(
    StationOptions options, WriteGate gate, Events events, SignIns signIns, TimeProvider time, IServiceProvider services)
{
    /// <summary>The passcode of both sign-ins, as given or as made up for this start.</summary>
    public string Passcode { get; } = options.DemoPasscode ?? FreshPasscodes.MakeUp();

    /// <summary>Adds what is missing. An event of an earlier start is kept, and its days are extended to include today. A trial begins with
    /// a morning of inspections, unless it is to begin empty.</summary>
    public async Task Seed()
    {
        await SignIn(signIns, Passcode);
        var today = DemoEvent.Today(time);
        var there = events.Find(DemoEvent.Id);
        if (there is null)
        {
            var held = DemoEvent.On(today);
            await gate.Run(write => Add(write, held));
            if (options is { IsTrial: true, IsEmpty: false })
            {
                await new DemoMorning(services, held).Record(
                    signIns.Check(Roles.Inspector, Passcode)!, signIns.Check(Roles.Director, Passcode)!);
            }
        }
        else
        {
            var (from, to) = DemoEvent.Days(today);
            await gate.Run(write => Events.MoveDays(write, there.Id, from < there.From ? from : there.From, to > there.To ? to : there.To));
        }
    }

    /// <summary>Makes the two sign-ins, or gives them this passcode.</summary>
    internal static Task SignIn(SignIns signIns, string passcode) => signIns.Demo(
        passcode, [("Ida Morrowgate", Roles.Inspector, Role.Inspector), ("Hollis Vantreight", Roles.Director, Role.Director)]);

    private static int Add(WriteTransaction write, Event added)
    {
        Events.Add(write, added);
        var count = 0;
        foreach (var (number, bowler, squad) in DemoEvent.Entries)
        {
            Events.Enter(write, added.Id, new NewEntry(number, bowler, squad));
            count++;
        }

        return count;
    }
}
