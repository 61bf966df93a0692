using System.Text;
using Inspect.Sheets.Json;
using Inspect.Station.Web;

namespace Inspect.Station.Access;

/// <summary>The rules for sign-in names and passcodes.</summary>
public static class SignInRules
{
    /// <summary>The shortest passcode, in characters: long enough that a throttled guesser gets nowhere
    /// (common practice, no source).</summary>
    public const int ShortestPasscode = 10;

    /// <summary>The longest passcode, so that hashing it stays cheap.</summary>
    public const int LongestPasscode = 128;

    private const int LongestName = 60;

    /// <summary>What the form says about a passcode.</summary>
    public static string PasscodeHint => $"At least {ShortestPasscode} characters; a few words are easy to remember.";

    /// <summary>A name in the form that is compared: compatibility-normalised, in lower case, without spaces at the ends.</summary>
    public static string Key(string name) => PlainText.Normalized(name.Trim(), NormalizationForm.FormKC).ToLowerInvariant();

    /// <summary>Whether somebody can have this name at all.</summary>
    public static bool IsPossible(string name) => name.Trim().Length is > 0 and <= LongestName;

    /// <summary>Adds what is wrong with a new sign-in name.</summary>
    public static void CheckName(string name, Faults faults)
    {
        if (name.Length == 0)
        {
            faults.Add("name", "Give the name to sign in with.");
        }
        else if (name.Length > LongestName)
        {
            faults.Add("name", $"\"{name[..20]}...\" is too long: a sign-in name has at most {LongestName} characters.");
        }
        else if (!PlainText.IsLine(name))
        {
            faults.Add("name", "This name has a character that cannot be shown; type it again.");
        }
    }

    /// <summary>Adds what is wrong with a new passcode.</summary>
    public static void CheckPasscode(string passcode, Faults faults)
    {
        if (passcode.Length < ShortestPasscode)
        {
            faults.Add("passcode", $"The passcode is too short: it has at least {ShortestPasscode} characters.");
        }
        else if (passcode.Length > LongestPasscode)
        {
            faults.Add("passcode", $"The passcode is too long: it has at most {LongestPasscode} characters.");
        }
    }
}
