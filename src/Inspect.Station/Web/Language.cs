using System.Globalization;
using QualityValue = Microsoft.Net.Http.Headers.StringWithQualityHeaderValue;

namespace Inspect.Station.Web;

/// <summary>A language in which a page can speak: its tag, its plural forms, and how numbers and days are written in it.</summary>
/// <remarks>Names of months and the decimal sign are those of the framework's culture data. Plural forms are those of whole numbers in
/// Unicode CLDR, "Language Plural Rules"; the form for millions of French and Spanish is left out, because nothing here counts so far.
/// </remarks>
public sealed class Language
{
    /// <summary>English, which answers where nobody asked for another.</summary>
    public static readonly Language English = new("en", "English", "en-GB", count => count == 1, new("d MMMM yyyy", "%d", "d MMMM"));

    /// <summary>Every language, in the order in which they are offered.</summary>
    public static readonly IReadOnlyList<Language> All =
    [
        English,
        new("de", "Deutsch", "de", count => count == 1, new("d. MMMM yyyy", "d.", "d. MMMM")),
        new("fr", "Français", "fr", count => count is 0 or 1, new("d MMMM yyyy", "%d", "d MMMM")),
        new("es", "Español", "es", count => count == 1, new("d 'de' MMMM 'de' yyyy", "%d", "d 'de' MMMM")),
        new("sv", "Svenska", "sv", count => count == 1, new("d MMMM yyyy", "%d", "d MMMM")),
        new("ja", "日本語", "ja", null, new("yyyy年M月d日", "d日", "M月d日", YearFirst: "～")),
        new("ko", "한국어", "ko", null, new("yyyy년 M월 d일", "d일", "M월 d일", YearFirst: "~")),
    ];

    private const string Cookie = "language";
    private const string Asked = "in";

    private readonly CultureInfo _culture;
    private readonly Func<int, bool>? _isOne;
    private readonly DayForms _days;

    private Language(string tag, string name, string culture, Func<int, bool>? isOne, DayForms days)
    {
        (Tag, Name, _isOne, _days) = (tag, name, isOne, days);
        _culture = CultureInfo.GetCultureInfo(culture);
    }

    /// <summary>The tag, as in <c>lang</c> (BCP 47).</summary>
    public string Tag { get; }

    /// <summary>What it calls itself.</summary>
    public string Name { get; }

    /// <summary>Its plural forms, by their names in CLDR.</summary>
    public IReadOnlyList<string> PluralForms => _isOne is null ? ["other"] : ["one", "other"];

    /// <summary>The plural form of a whole number.</summary>
    public string PluralOf(int count) => _isOne?.Invoke(count) == true ? "one" : "other";

    /// <summary>The language of an answer: the one chosen on the page, which a cookie keeps for a year, else the one kept, else the one
    /// the browser prefers. The answer says that it depends on these.</summary>
    public static Language For(HttpContext http)
    {
        var (request, response) = (http.Request, http.Response);
        var chosen = Tagged(request.Query[Asked]);
        if (chosen is not null)
        {
            response.Cookies.Append(Cookie, chosen.Tag, new CookieOptions
            {
                MaxAge = TimeSpan.FromDays(365),
                HttpOnly = true,
                SameSite = SameSiteMode.Lax,
                Secure = request.IsHttps,
                Path = "/",
            });
        }

        var language = chosen ?? Tagged(request.Cookies[Cookie]) ?? Preferred(request.Headers.AcceptLanguage.ToString());
        response.Headers.ContentLanguage = language.Tag;
        response.Headers.AppendCommaSeparatedValues("Vary", "Accept-Language", "Cookie");
        return language;
    }

    /// <summary>The address of the same page in this language.</summary>
    public string Href => $"?{Asked}={Tag}";

    /// <summary>The language that a browser prefers, by quality (RFC 9110, 12.5.4) and without region (RFC 4647, lookup).</summary>
    /// <param name="header">The value of Accept-Language.</param>
    internal static Language Preferred(string header)
    {
        if (!QualityValue.TryParseList([header], out var ranges))
        {
            return English;
        }

        var named = ranges.Select(range => (Range: range.Value.ToString(), Quality: range.Quality ?? 1)).ToList();
        foreach (var (range, _) in named.Where(each => each.Quality > 0).OrderByDescending(each => each.Quality))
        {
            var found = range == "*"
                ? All.FirstOrDefault(one => !named.Any(each => Primary(each.Range) == one.Tag))
                : Tagged(Primary(range)) is { } one && !named.Any(each => each.Quality == 0 && IsTag(each.Range, one)) ? one : null;
            if (found is not null)
            {
                return found;
            }
        }

        return English;
    }

    /// <summary>A number with this language's decimal sign.</summary>
    /// <param name="number">With a point for its decimals, and no other point.</param>
    public string Number(string number) => number.Replace(".", _culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal);

    /// <summary>A whole number.</summary>
    public string Number(int number) => number.ToString(_culture);

    /// <summary>A day.</summary>
    public string Day(DateOnly day) => day.ToString(_days.Day, _culture);

    /// <summary>The days from one to another, each part that they share said once.</summary>
    public string Days(DateOnly from, DateOnly to)
    {
        if (from == to || from.Year != to.Year)
        {
            return from == to ? Day(from) : $"{Day(from)} {_days.YearFirst ?? "–"} {Day(to)}";
        }

        var isMonth = from.Month == to.Month;
        var part = isMonth ? _days.InMonth : _days.InYear;
        return _days.YearFirst is { } between
            ? $"{Day(from)}{between}{to.ToString(part, _culture)}"
            : $"{from.ToString(part, _culture)}{(isMonth ? "–" : " – ")}{Day(to)}";
    }

    private static Language? Tagged(string? tag) => All.FirstOrDefault(one => IsTag(tag, one));

    private static bool IsTag(string? range, Language one) => one.Tag.Equals(range, StringComparison.OrdinalIgnoreCase);

    private static string Primary(string range) => range.Split('-')[0].ToLowerInvariant();

    /// <summary>How days are written.</summary>
    /// <param name="Day">A whole day.</param>
    /// <param name="InMonth">A day whose month and year stand beside it.</param>
    /// <param name="InYear">A day whose year stands beside it.</param>
    /// <param name="YearFirst">What stands between two days where the year comes first; null where it comes last.</param>
    private sealed record DayForms(string Day, string InMonth, string InYear, string? YearFirst = null);
}
