using System.Text;
using Inspect.Station.Slip;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Inspect.Station.Tests.Slip;

/// <summary>The slip as text: everything on it can be found again, on every stock, however long.</summary>
/// <remarks>The behaviour is defined by this project.</remarks>
public class SlipDocumentTests
{
    public static TheoryData<string, string> Everything
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var stock in SlipStock.All)
            {
                foreach (var sample in Samples.Keys)
                {
                    data.Add(stock.Name, sample);
                }
            }

            return data;
        }
    }

    private static Dictionary<string, SlipContent> Samples { get; } = new()
    {
        ["pass"] = SlipSamples.Of(SlipOutcome.Pass),
        ["fail"] = SlipSamples.Of(SlipOutcome.Fail),
        ["hold"] = SlipSamples.Of(SlipOutcome.Hold),
        ["twelve fails"] = SlipSamples.TwelveFails(),
        ["crowded"] = SlipSamples.Crowded(),
    };

    [Theory]
    [MemberData(nameof(Everything))]
    public void Render_AnySlip_SaysAllOfIt(string stockName, string sample)
    {
        var content = Samples[sample];
        using var document = PdfDocument.Open(Render(content, stockName).Pdf);
        var text = Squash(string.Concat(document.GetPages().Select(page => page.Text)));
        // Holes of which a rule says the same stand in one line.
        var lists = content is { Outcome: SlipOutcome.Pass, SupersededBy: null };
        foreach (var alike in content.Findings.GroupBy(finding => finding with { Subject = finding.Subject == "ball" ? "ball" : "" }))
        {
            var subjects = string.Concat(alike.Where(finding => finding.Subject != "ball").Select(finding => $", {finding.Subject}"));
            var finding = alike.Key;
            string[] row = stockName is "receipt" or "roll62"
                ? [$"{finding.Rule}{subjects}", finding.Measured ?? "–", $"limit {finding.Limit}",
                    finding.Margin is null ? "" : $" · margin {finding.Margin}"]
                : [$"{finding.Rule}{subjects}", finding.Measured ?? "–", finding.Limit!, finding.Margin ?? "–"];
            // On the narrow roll a long name breaks beside its reading.
            string[] said = stockName == "roll62" ? [.. row.SelectMany(cell => cell.Split(' ')).Select(Squash)]
                : [string.Concat(row.Select(Squash))];
            Assert.Equal(lists, said.All(words => text.Contains(words, StringComparison.Ordinal)));
            Assert.Contains(Squash(finding.Reason ?? ""), text);
        }

        string?[] whole =
        [
            content.Number, content.Code.Grouped, content.Event, content.Bowler, $"entry {content.Entry}", content.BallMaker,
            content.BallModel,
            content.BallSerial, content.BallTag, content.Grip, "14 March 2027", content.EditionTitle, content.EditionId, content.Inspector,
            "13 March 2027, 16:42", content.Ruling, content.Supersedes, content.SupersededBy,
            "register of 4,182 entries, root 9f3ac21b77d0",
            "This slip belongs to this ball and this grip only.", .. content.Supplements, .. content.NotChecked, .. content.Notes,
        ];
        Assert.All(whole, words => Assert.Contains(Squash(words ?? ""), text));
    }

    [Theory]
    [InlineData(1, "register of 1 entry, root 9f3ac21b77d0")]
    [InlineData(2, "register of 2 entries, root 9f3ac21b77d0")]
    public void Render_SmallRegister_CountsItsEntriesInPlainEnglish(long entries, string words)
    {
        using var document = PdfDocument.Open(Render(SlipSamples.Of(SlipOutcome.Pass) with { RegisterSize = entries }, "label").Pdf);

        Assert.Contains(Squash(words), Squash(document.GetPage(1).Text));
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Render_AnySlip_HeadsEachPageWithOutcomeNumberAndCode(string stockName, string sample)
    {
        var content = Samples[sample];
        using var document = PdfDocument.Open(Render(content, stockName).Pdf);
        foreach (var page in document.GetPages())
        {
            var text = Squash(page.Text);
            Assert.Contains(Squash(
                $"{content.Outcome.ToString().ToUpperInvariant()} {content.Number} · page {page.Number} of {document.NumberOfPages}"),
                text);
            Assert.Contains(content.Code.Grouped, text);
            Assert.Contains(page.Letters, letter => letter.PointSize > 19);
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Render_AnySlip_ClipsNothingAndSetsNothingTooSmall(string stockName, string sample)
    {
        Assert.True(SlipStock.TryFind(stockName, out var stock));
        using var document = PdfDocument.Open(Render(Samples[sample], stockName).Pdf);
        foreach (var page in document.GetPages())
        {
            // Inside the border: the band is 9 points wide.
            var edge = stock.MarginPt + 9;
            foreach (var letter in page.Letters.Where(letter => !string.IsNullOrWhiteSpace(letter.Value)))
            {
                Assert.True(letter.PointSize > 5.99, $"'{letter.Value}' is set at {letter.PointSize} points.");
                var outside = letter.TextOrientation != TextOrientation.Horizontal
                    || letter.StartBaseLine.Y < edge || letter.StartBaseLine.Y > page.Height - edge;
                Assert.True(
                    outside || (letter.BoundingBox.Left >= edge && letter.BoundingBox.Right <= page.Width - edge),
                    $"'{letter.Value}' at {letter.BoundingBox} reaches into the border.");
            }
        }
    }

    [Theory]
    [InlineData("label", SlipOutcome.Fail)]
    [InlineData("a6", SlipOutcome.Fail)]
    [InlineData("receipt", SlipOutcome.Fail)]
    [InlineData("label", SlipOutcome.Hold)]
    [InlineData("a6", SlipOutcome.Hold)]
    [InlineData("receipt", SlipOutcome.Hold)]
    public void Render_FailOrHold_ShowsItsWordOnEachHalfAndNoPassAnywhere(string stockName, SlipOutcome outcome)
    {
        var word = outcome.ToString().ToUpperInvariant();
        using var document = PdfDocument.Open(Render(SlipSamples.Of(outcome), stockName).Pdf);
        foreach (var page in document.GetPages())
        {
            Assert.DoesNotContain("pass", page.Text, StringComparison.OrdinalIgnoreCase);
            var places = Occurrences(page, word);
            bool AnyWithin(Func<double, double, bool> inside) =>
                places.Any(letters => letters.All(letter =>
                    inside(letter.BoundingBox.Left, letter.BoundingBox.Bottom)
                        && inside(letter.BoundingBox.Right, letter.BoundingBox.Top)));
            Assert.True(AnyWithin((_, y) => y > page.Height / 2), "top half");
            Assert.True(AnyWithin((_, y) => y < page.Height / 2), "bottom half");
            Assert.True(AnyWithin((x, _) => x < page.Width / 2), "left half");
            Assert.True(AnyWithin((x, _) => x > page.Width / 2), "right half");
            // Torn in four, or the border cut away with scissors.
            Assert.True(AnyWithin((x, y) => x > page.Width / 2 && y < page.Height / 2), "bottom right quarter");
            Assert.True(AnyWithin((x, y) => x > 30 && x < page.Width - 30 && y > 15 && y < page.Height - 15), "inside the border");
        }
    }

    [Fact]
    public void Render_ThreeHoleBallThatPasses_FitsOneLabel()
    {
        var content = SlipSamples.Of(SlipOutcome.Pass);
        Assert.Equal(32, content.Findings.Count);
        Assert.Equal(1, SlipDocument.Render(content, SlipStock.Label).Pages);
    }

    /// <summary>What a bowler whose ball was not passed has to know stands on one label, most important first.</summary>
    [Theory]
    [InlineData("label", SlipOutcome.Fail)]
    [InlineData("a6", SlipOutcome.Fail)]
    [InlineData("receipt", SlipOutcome.Fail)]
    [InlineData("label", SlipOutcome.Hold)]
    [InlineData("a6", SlipOutcome.Hold)]
    [InlineData("roll62", SlipOutcome.Hold)]
    public void Render_FailOrHold_SaysWhyWhatCuresItAndWhereToGoOnOnePage(string stock, SlipOutcome outcome)
    {
        const string Cure = "Drill the middle hole to 2 7/16 in deep, then weigh again.";
        var content = SlipSamples.Of(outcome) with { Advice = outcome == SlipOutcome.Fail ? Cure : null };
        using var pdf = PdfDocument.Open(Render(content, stock).Pdf);
        var text = Squash(Assert.Single(pdf.GetPages()).Text);
        var met = content.Findings.Count(finding => finding.Outcome == SlipOutcome.Pass);
        string[] inOrder =
        [
            content.Outcome.ToString().ToUpperInvariant(), "You may not bowl with this ball",
            .. content.Findings.Where(finding => finding.Outcome != SlipOutcome.Pass)
                .OrderBy(finding => finding.Outcome).Select(finding => finding.Reason!),
            .. outcome == SlipOutcome.Fail ? [Cure] : Array.Empty<string>(), "inspection table", $"{met} other checks in order",
            content.Bowler,
        ];

        var at = 0;
        foreach (var said in inOrder)
        {
            at = text.IndexOf(Squash(said), at, StringComparison.Ordinal);
            Assert.True(at >= 0, $"\"{said}\" is not there, or too early.");
        }
    }

    [Fact]
    public void Render_OnARoll_IsOnePageAsLongAsNeeded()
    {
        using var few = PdfDocument.Open(Render(SlipSamples.Of(SlipOutcome.Pass), "receipt").Pdf);
        using var many = PdfDocument.Open(Render(SlipSamples.TwelveFails(), "receipt").Pdf);
        Assert.Equal((1, 1), (few.NumberOfPages, many.NumberOfPages));
        Assert.True(many.GetPage(1).Height > few.GetPage(1).Height);
        Assert.Equal(72, few.GetPage(1).Width * 25.4 / 72, 2);
    }

    [Fact]
    public void Render_Accents_AreComposedAndKept()
    {
        const string Bowler = "Łukasz Żółć, Nguyễn Ðặng, Ελένη, Иванов";
        var content = SlipSamples.Of(SlipOutcome.Pass) with { Bowler = Bowler.Normalize(NormalizationForm.FormD) };
        var slip = SlipDocument.Render(content, SlipStock.Label);
        Assert.Empty(slip.Lacking);
        using var document = PdfDocument.Open(slip.Pdf);
        Assert.Contains(Squash(Bowler), Squash(document.GetPage(1).Text));
    }

    [Fact]
    public void Render_LettersThatTheFontLacks_AreReplacedVisiblyAndReported()
    {
        var content = SlipSamples.Of(SlipOutcome.Pass) with { Bowler = "高橋 Aya \uD83C\uDFB3 \uD800" };
        var slip = SlipDocument.Render(content, SlipStock.Label);
        Assert.Equal(["U+6A4B", "U+9AD8", "U+FFFD", "U+1F3B3"], slip.Lacking);
        using var document = PdfDocument.Open(slip.Pdf);
        var text = Squash(string.Concat(document.GetPages().Select(page => page.Text)));
        Assert.Contains("■■Aya■■,entry0142", text);
        Assert.Contains(Squash("■ is printed for a letter that the font lacks: U+6A4B, U+9AD8, U+FFFD, U+1F3B3."), text);
    }

    [Fact]
    public void Render_PrintedAgain_SaysSoAndWhenItWasFirst()
    {
        var first = new DateTimeOffset(2027, 3, 13, 16, 44, 0, TimeSpan.FromHours(1));
        var content = SlipSamples.Of(SlipOutcome.Pass) with { Again = (first, first.AddHours(1)) };
        using var document = PdfDocument.Open(Render(content, "label").Pdf);

        Assert.Contains(Squash("Printed again on 13 March 2027, 17:44; first at 16:44."), Squash(document.GetPage(1).Text));
        Assert.Equal(
            "Printed again on 14 March 2027, 16:44; first on 13 March 2027, 16:44.", SlipWords.Again(first, first.AddDays(1)));
    }

    [Fact]
    public void Render_NoEditionInForce_SaysSo()
    {
        const string Reason = "No edition of these rules was in force on 14 March 2027.";
        var content = SlipSamples.Base(SlipOutcome.Hold) with { EditionTitle = null, EditionId = null, Reasons = [Reason] };
        using var document = PdfDocument.Open(Render(content, "label").Pdf);
        var text = Squash(document.GetPage(1).Text);
        Assert.Contains(Squash(Reason), text);
        Assert.Contains(Squash("Edition none in force on the day of play"), text);
    }

    [Fact]
    public void Render_ReplacedPass_DoesNotSayItIsGood()
    {
        var content = SlipSamples.Of(SlipOutcome.Pass) with { SupersededBy = "LANTERN-0431" };
        using var document = PdfDocument.Open(Render(content, "label").Pdf);
        var text = Squash(document.GetPage(1).Text);
        Assert.DoesNotContain(Squash("Good for play"), text);
        Assert.Contains(Squash("Use slip LANTERN-0431."), text);
        Assert.Contains(Squash("Replaced by LANTERN-0431: this slip no longer counts."), text);
    }

    [Fact]
    public async Task Render_EightThreads_EachGetsItsOwnSlip()
    {
        await Task.WhenAll(Enumerable.Range(0, 8).Select(thread => Task.Run(() =>
        {
            for (var i = 0; i < 50; i++)
            {
                var number = $"LANTERN-{(thread * 50) + i:0000}";
                var outcome = (SlipOutcome)(i % 3);
                var slip = SlipDocument.Render(SlipSamples.Of(outcome) with { Number = number }, SlipStock.All[i % 3]);
                using var document = PdfDocument.Open(slip.Pdf);
                Assert.Contains(Squash($"{outcome.ToString().ToUpperInvariant()} {number}"), Squash(document.GetPage(1).Text));
                Assert.Empty(slip.Lacking);
            }
        })));
    }

    /// <summary>The picture takes room that is left; it never adds a page.</summary>
    [Theory]
    [InlineData("label")]
    [InlineData("a6")]
    [InlineData("receipt")]
    public void Render_AdviceAndBalance_StandWhereThereIsRoom(string stock)
    {
        const string Advice = "Drill the middle hole to 2 7/16 in deep, then weigh again.";
        var bare = SlipSamples.Of(SlipOutcome.Fail);
        var roomy = bare with { Findings = [.. bare.Findings.Take(1)], Advice = Advice, Balance = SlipSamples.Balance };
        using var pdf = PdfDocument.Open(Render(roomy, stock).Pdf);
        using var without = PdfDocument.Open(Render(roomy with { Advice = null, Balance = null }, stock).Pdf);

        var words = Words(pdf.GetPage(1));
        Assert.Contains(SlipPaper.Settable("2 7/16 in deep").Replace('\u00a0', ' '), words, StringComparison.Ordinal);
        Assert.Contains("bottom", words, StringComparison.Ordinal);
        Assert.Equal(without.NumberOfPages, pdf.NumberOfPages);
        Assert.Equal(
            Render(SlipSamples.Crowded(), stock).Pages, Render(SlipSamples.Crowded() with { Balance = SlipSamples.Balance }, stock).Pages);

        static string Words(UglyToad.PdfPig.Content.Page page) =>
            string.Join(' ', page.GetWords().Select(word => word.Text)).Replace('\u00a0', ' ');
    }

    [Theory]
    [InlineData("label")]
    [InlineData("receipt")]
    public void Render_Fraction_IsRaisedBesideItsWholeNumber(string stock)
    {
        using var pdf = PdfDocument.Open(Render(SlipSamples.Of(SlipOutcome.Pass), stock).Pdf);
        var text = string.Concat(pdf.GetPages().Select(page => page.Text)).Replace('\u00a0', ' ');

        Assert.Contains("at most 1\u2079\u2044\u2081\u2086 in", text, StringComparison.Ordinal);
        Assert.Contains("\u00b3\u00b9\u2044\u2083\u2082 in", text, StringComparison.Ordinal);
    }

    /// <summary>What reads like a fraction and is none stays as written. The characters are those of The Unicode Standard, 22.4.</summary>
    [Theory]
    [InlineData("4 33/64 in", "4\u00b3\u00b3\u2044\u2086\u2084\u00a0in")]
    [InlineData("-1/4 oz", "-\u00b9\u2044\u2084\u00a0oz")]
    [InlineData("minus 1/4 oz", "minus \u00b9\u2044\u2084\u00a0oz")]
    [InlineData("11/21/2026", "11/21/2026")]
    [InlineData("A-3/4", "A-3/4")]
    [InlineData("7/3", "7/3")]
    [InlineData("5/4 in", "5/4\u00a0in")]
    public void Settable_OnlyProperFractions_AreRaised(string written, string set) => Assert.Equal(set, SlipPaper.Settable(written));

    [Fact]
    public void WarmUp_Always_Succeeds() => SlipDocument.WarmUp();

    [Fact]
    public void Sources_OfTheStation_NameThePdfLibraryInOneFile()
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root.FullName, "Inspect.sln")))
        {
            root = root.Parent ?? throw new InvalidOperationException("The solution lies above the tests.");
        }

        var naming = Directory.EnumerateFiles(Path.Combine(root.FullName, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(file => File.ReadAllText(file).Contains("PdfSharp", StringComparison.Ordinal))
            .Select(Path.GetFileName);
        Assert.Equal(["SlipPaper.cs"], naming);
    }

    private static RenderedSlip Render(SlipContent content, string stockName)
    {
        Assert.True(SlipStock.TryFind(stockName, out var stock));
        return SlipDocument.Render(content, stock);
    }

    // As it can be set: with its fractions raised.
    private static string Squash(string text) =>
        string.Concat(SlipPaper.Settable(text).Normalize(NormalizationForm.FormC).Where(letter => !char.IsWhiteSpace(letter)));

    private static List<IReadOnlyList<Letter>> Occurrences(Page page, string word)
    {
        var found = new List<IReadOnlyList<Letter>>();
        for (var i = 0; i + word.Length <= page.Letters.Count; i++)
        {
            var letters = page.Letters.Skip(i).Take(word.Length).ToList();
            if (string.Concat(letters.Select(letter => letter.Value)) == word)
            {
                found.Add(letters);
            }
        }

        return found;
    }
}
