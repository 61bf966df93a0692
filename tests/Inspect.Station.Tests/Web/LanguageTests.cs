using Inspect.Sheets.Readings;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Web;

namespace Inspect.Station.Tests.Web;

/// <summary>Which language answers, and how it writes numbers, days and counts.</summary>
[Collection(BrowserLooks.Name)]
public sealed class LanguageTests(BrowserFixture browser)
{
    /// <summary>RFC 9110, 12.5.4: a range without a quality has 1, one with 0 is not acceptable; RFC 4647, 3.4: a range that is not had is
    /// shortened from its end. The last lines are no list at all, and answered like none.</summary>
    [Theory]
    [InlineData("de", "de")]
    [InlineData("DE-at", "de")]
    [InlineData("sv;q=0.4, ko;q=0.9, ja;q=0.5", "ko")]
    [InlineData("da, en-gb;q=0.8, en;q=0.7", "en")]
    [InlineData("pt-BR, es;q=0.8, en;q=0.7", "es")]
    [InlineData("fr, de", "fr")]
    [InlineData("nl", "en")]
    [InlineData("de;q=0, fr;q=0.1", "fr")]
    [InlineData("de-CH, de;q=0, fr;q=0.1", "fr")]
    [InlineData("en;q=0, *;q=0.5", "de")]
    [InlineData("*", "en")]
    [InlineData("zh-Hant-TW, ja;q=0.001", "ja")]
    [InlineData("", "en")]
    [InlineData(";;;q=x", "en")]
    public void Preferred_IsTheFirstByQualityThatThePageHas(string header, string tag) =>
        Assert.Equal(tag, Language.Preferred(header).Tag);

    /// <summary>Unicode CLDR, "Language Plural Rules" (supplemental data, plurals), for whole numbers, as Chromium carries them.</summary>
    [Fact]
    public async Task PluralForms_AreThoseOfCldr()
    {
        await using var visit = await Blank();
        foreach (var language in Language.All)
        {
            var published = await visit.Page.EvaluateAsync<string[]>(
                "tag => Array.from({ length: 1001 }, (_, count) => new Intl.PluralRules(tag).select(count))", language.Tag);
            Assert.Equal(published, Enumerable.Range(0, 1001).Select(language.PluralOf));
            Assert.Equal(published.Distinct().Order(), language.PluralForms.Order());
        }
    }

    /// <summary>Unicode CLDR, dates (long form and intervals) and numbers, as Chromium carries them; English as in Britain. Which space
    /// stands beside a dash differs by the data's version and is left out. Between two days CLDR has numerals alone for Japanese; the
    /// form here is common practice, no source.</summary>
    [Theory]
    [InlineData("2026-11-26", "2026-11-30", "2026年11月26日～30日")]
    [InlineData("2026-11-30", "2026-12-02", "2026年11月30日～12月2日")]
    [InlineData("2026-12-30", "2027-01-02", "2026年12月30日～2027年1月2日")]
    [InlineData("2026-05-01", "2026-05-01", "2026年5月1日")]
    public async Task Days_AreWrittenAsCldrHasThem(string from, string to, string japanese)
    {
        await using var visit = await Blank();
        foreach (var language in Language.All)
        {
            var published = await visit.Page.EvaluateAsync<string>(
                """
                ([tag, from, to]) => new Intl.DateTimeFormat(tag, { year: "numeric", month: "long", day: "numeric", timeZone: "UTC" })
                  .formatRange(new Date(from), new Date(to))
                """,
                new[] { language.Tag == "en" ? "en-GB" : language.Tag, from, to });
            Assert.Equal(language.Tag == "ja" ? japanese : Bare(published), Bare(language.Days(Day(from), Day(to))));
            var sign = await visit.Page.EvaluateAsync<string>("tag => new Intl.NumberFormat(tag).format(1.5)", language.Tag);
            Assert.Equal(sign, language.Number("1.5"));
        }

        static string Bare(string text) => string.Concat(text.Where(sign => !char.IsWhiteSpace(sign)));
    }

    /// <summary>1 oz is 28.349523125 g, 1 lb 16 oz and 1 in 25.4 mm exactly (international yard and pound agreement of 1959).</summary>
    [Theory]
    [InlineData("15 lb 1 oz", Quantity.Weight, "en", "15 lb 1 oz (6.83 kg)")]
    [InlineData("15 lb 1 oz", Quantity.Weight, "de", "15 lb 1 oz (6,83 kg)")]
    [InlineData("0.25 oz", Quantity.Imbalance, "en", "0.25 oz (7.1 g)")]
    [InlineData("0.25 oz", Quantity.Imbalance, "sv", "0,25 oz (7,1 g)")]
    [InlineData("31/32 in", Quantity.Length, "ko", "31/32 in (24.6 mm)")]
    [InlineData("24.6 mm", Quantity.Length, "fr", "24,6 mm (0,969 in)")]
    [InlineData("6830 g", Quantity.Weight, "ja", "6830 g (15.06 lb)")]
    [InlineData("92.1 g", Quantity.Imbalance, "es", "92,1 g (3,25 oz)")]
    [InlineData("74.5", Quantity.Hardness, "de", "74,5 Shore D")]
    [InlineData("18 µin", Quantity.Roughness, "en", "18 µin (0.46 µm)")]
    public void BothUnits_SayAFigureInBothSystems(string typed, Quantity quantity, string tag, string expected)
    {
        var reading = ReadingParser.Parse(typed, quantity).Reading!;
        Assert.Equal(expected, Spaced(BothUnits.Of(reading.Value, reading.Notation, [], Of(tag))));
    }

    /// <summary>27.003 in and 27.002 in are 685.8762 mm and 685.8508 mm: one decimal would make them alike.</summary>
    [Fact]
    public void BothUnits_OfAReadingJustOverItsLimit_KeepTheirOrder()
    {
        var (over, limit) = (Length("27.003 in"), Length("27.002 in"));
        Assert.Equal("27.003 in (685.88 mm)", Spaced(BothUnits.Of(over.Value, over.Notation, [limit.Value], Language.English)));
        Assert.Equal("27.002 in (685.85 mm)", Spaced(BothUnits.Of(limit.Value, limit.Notation, [over.Value], Language.English)));

        static Reading Length(string typed) => ReadingParser.Parse(typed, Quantity.Length).Reading!;
    }

    private static string Spaced(string figure) => figure.Replace('\u00A0', ' ');

    private static Language Of(string tag) => Language.All.Single(language => language.Tag == tag);

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private Task<BrowserVisit> Blank() => browser.Visit(new Uri("http://127.0.0.1/"));
}
