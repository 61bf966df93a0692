namespace Inspect.Station.Prepare;

/// <summary>The event of the demo. Its bowlers, its place and its name are invented.</summary>
public static class DemoEvent
{
    /// <summary>Its short name.</summary>
    public const string Id = "LANTERN";

    private const string Name = "Quillhaven Lantern Open";
    private const string TimeZone = "America/Chicago";
    private const string Authority = "us-national";

    // Diacritics, apostrophes, double names, a single name: as in a real entry list.
    private static readonly string[] Bowlers =
    [
        "Aoife Brannock-Thorne", "Łucja Wierzbosz", "Tomás Ibarrondo Quell", "Nguyễn Thị Bích Khuê", "Þórdís Eldhamar",
        "Desmond Okwuosa-Lyle",
        "Zsófia Kőhalmos", "Renée Aubercourt", "Çağla Demirsoylu", "Wendell Marrowby", "Šárka Podlesník", "Ingrid Fjellhavn",
        "Kaipo Nāhulu", "Matéo Villarrosa", "Ezinne Adaku-Hale", "Jürgen Strömquist", "Noor van der Kiel", "Priyanka Vellathur",
        "Gwenllian Prys-Ardal", "Oṣunkẹmi Balewande", "Dímitra Kalogrís", "Rowan O’Hallmoor", "Mirembe", "Bartholomew Quince",
    ];

    /// <summary>The event as it is on its first start: from the day before to three days after, with three squads.</summary>
    public static Event On(DateOnly today)
    {
        var (from, to) = Days(today);
        return new Event(Id, Name, from, to, TimeZone, Authority, Edition: null, Plan: null, HasSingleOfficial: false,
        [
            new Squad("A", today.ToDateTime(new TimeOnly(9, 30))),
            new Squad("B", today.ToDateTime(new TimeOnly(14, 0))),
            new Squad("C", today.AddDays(1).ToDateTime(new TimeOnly(10, 0))),
        ]);
    }

    /// <summary>The date at the invented venue.</summary>
    public static DateOnly Today(TimeProvider time) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(TimeZone)).DateTime);

    /// <summary>The days of play around a date.</summary>
    public static (DateOnly From, DateOnly To) Days(DateOnly today) => (today.AddDays(-1), today.AddDays(3));

    /// <summary>Number, name and squad of each bowler.</summary>
    public static IEnumerable<(string Number, string Bowler, string Squad)> Entries =>
        Bowlers.Select((bowler, i) => ($"{101 + i}", bowler, i % 3 == 0 ? "A" : i % 3 == 1 ? "B" : "C"));
}
