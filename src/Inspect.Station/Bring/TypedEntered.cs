using System.Text;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;

namespace Inspect.Station.Bring;

/// <summary>A ball for a list as typed: the fields of the measuring form that say which ball it is and how it is gripped.</summary>
public sealed record TypedEntered(TypedFields Fields)
{
    /// <summary>The empty form.</summary>
    public static readonly TypedEntered None = new(TypedFields.Of([]));

    private static readonly string[] Names = ["ball.maker", "ball.model", "ball.serial", "grip.hand", "grip.digits"];

    /// <summary>Reads the form; other fields are left out.</summary>
    public static TypedEntered Of(IFormCollection form) => new(TypedFields.Sent(
        Names.Select(name => KeyValuePair.Create(name, form[name].Select(value => value ?? "").ToArray()))));

    /// <summary>The ball, or null with everything that is wrong added, by field.</summary>
    /// <param name="held">The event.</param>
    /// <param name="earlier">The bowler's balls at other events: one with the same serial number is the same ball.</param>
    /// <param name="faults">Where faults are added.</param>
    public BallAsWritten? Read(Event held, IReadOnlyList<EarlierBall> earlier, Faults faults)
    {
        var play = KeyValuePair.Create("play", new[] { held.From.ToString("O", System.Globalization.CultureInfo.InvariantCulture) });
        var typed = MeasureForm.From(Fields.With([play]));
        var found = new List<Fault>();
        var sheet = SheetReader.Read(
            Encoding.UTF8.GetBytes(typed.Sheet.ToJsonString()), found, new SheetDefaults(held.Authority, held.Edition, held.Plan));
        found.ForEach(typed.Refuse);
        foreach (var (field, message) in typed.Faults.Select(fault => (fault.Path, fault.Message)).Distinct())
        {
            faults.Add(Names.FirstOrDefault(name => TypedFields.IsIn(name, field)) ?? Faults.Whole, message);
        }

        var (ball, grip) = (sheet?.Ball, sheet?.Grip);
        if (faults.AreNone && ball is not { Maker: not null } and not { Model: not null } and not { Serial: not null })
        {
            faults.Add("ball.model", "Write what is on the ball: the model and the serial number, or at least one of them.");
        }

        var same = earlier.FirstOrDefault(each => ball?.Serial is { } mine && each.Written.Serial is { } its
            && SerialLookAlikes.Fold(mine) is { Length: > 0 } folded && SerialLookAlikes.Fold(its) == folded);
        return faults.AreNone
            ? new BallAsWritten(ball!.Maker, ball.Model, ball.Serial, grip?.Hand, grip?.Digits, same?.Ball) : null;
    }
}
