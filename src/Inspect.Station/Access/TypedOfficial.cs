using Inspect.Sheets.Json;
using Inspect.Station.Web;

namespace Inspect.Station.Access;

/// <summary>The form that gives a person a sign-in, as typed.</summary>
public sealed record TypedOfficial(string Person, string Name, string Role)
{
    private const int LongestPersonName = 200;

    /// <summary>The empty form.</summary>
    public static readonly TypedOfficial None = new("", "", Roles.Inspector);

    /// <summary>Reads the form; missing answers are empty.</summary>
    public static TypedOfficial From(IFormCollection form) =>
        new(form["person"].ToString().Trim(), form["name"].ToString().Trim(), form["role"].ToString());

    /// <summary>Everything that is wrong with the answers.</summary>
    public Faults Check()
    {
        var faults = new Faults();
        if (Person.Length is 0 or > LongestPersonName || !PlainText.IsLine(Person))
        {
            faults.Add("person", $"Give the name as it is to appear on slips, at most {LongestPersonName} characters.");
        }

        SignInRules.CheckName(Name, faults);
        if (Role is not (Roles.Inspector or Roles.Director))
        {
            faults.Add("role", "Choose whether this is an inspector or a director.");
        }

        return faults;
    }
}
