using Inspect.Station.Web;

namespace Inspect.Station.Access;

/// <summary>The set-up form as typed.</summary>
public sealed record TypedSetUp(string Code, string Person, string Name, string Passcode, string Again)
{
    private const int LongestPersonName = 200;

    /// <summary>The empty form.</summary>
    public static readonly TypedSetUp None = new("", "", "", "", "");

    /// <summary>Reads the form; missing answers are empty.</summary>
    public static TypedSetUp From(IFormCollection form) => new(
        form["code"].ToString().Trim(),
        form["person"].ToString().Trim(),
        form["name"].ToString().Trim(),
        form["passcode"].ToString(),
        form["again"].ToString());

    /// <summary>Everything that is wrong with the answers, except the code.</summary>
    public Faults Check()
    {
        var faults = new Faults();
        if (Person.Length is 0 or > LongestPersonName)
        {
            faults.Add("person", $"Give your name as it is to appear on slips, at most {LongestPersonName} characters.");
        }

        SignInRules.CheckName(Name, faults);
        SignInRules.CheckPasscode(Passcode, faults);
        if (Again != Passcode)
        {
            faults.Add("again", "The two passcodes differ: type the same one twice.");
        }

        return faults;
    }
}
