using System.Globalization;
using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Station.Record;

/// <summary>Folds serial numbers that look alike to one text: O and 0, I and L and 1, S and 5, B and 8, Z and 2.</summary>
/// <remarks>For searching only. Common practice of engraved and handwritten codes, no source.</remarks>
public static class SerialLookAlikes
{
    /// <summary>The serial in upper case, without spaces and marks, with look-alike letters replaced by digits; empty
    /// when nothing is left.</summary>
    public static string Fold(string serial)
    {
        var folded = new StringBuilder(serial.Length);
        var upper = PlainText.Normalized(serial, NormalizationForm.FormKD).ToUpper(CultureInfo.InvariantCulture);
        foreach (var character in upper.Where(char.IsLetterOrDigit))
        {
            folded.Append(character switch
            {
                'O' => '0',
                'I' or 'L' => '1',
                'Z' => '2',
                'S' => '5',
                'B' => '8',
                _ => character,
            });
        }

        return folded.ToString();
    }
}
