namespace Inspect.Rules.Tests.Sheets;

/// <summary>A sheet with every member written.</summary>
internal static class FullSheet
{
    public const string Json = """
        {"play":"2027-03-14","authority":"us-national","edition":"us-national/2020-08-01","plan":["gross-weight","left-right"],
        "grip":{"hand":"right","digits":["thumb","middle","ring"],"demonstrated":true},
        "ball":{"maker":"Örtel","model":"Nord \"7\"","serial":"7K2M0419","listed":"yes","made":"2024-05",
        "houseBall":{"suppliedByCentre":true,"shell":"polyester","differential":"0.020 in","drilledForBowler":false},"oilAbsorption":"95 min","highPerformanceCore":true},
        "marks":{"modelReadable":true,"serialReadable":true,"palmMarks":0,"foreignMaterial":false,"surfacePattern":false},
        "weights":{"gross":"15 lb 1½ oz","topBottom":"1.250 oz","leftRight":"−0.5 oz","fingerThumb":"0.25 oz","anyHalves":"1 oz"},
        "size":{"diameters":["8.580 in","8 37/64 in"],"circumference":"26.95 in"},
        "hardness":{"readings":["74","75.0","74"],"temperature":"72 °F"},
        "holes":[{"kind":"grip","digit":"thumb","diameter":"31/32 in","depth":"2 3/4 in","secondaryHole":false,
        "pieces":[{"diameter":"31/32 in","depth":"2 3/4 in"},{"diameter":"1 1/16 in","depth":"2.75 in"}]},
        {"kind":"indentation","digit":"index"},{"kind":"vent","in":"thumb","diameter":"1/4\""},
        {"kind":"mill","diameter":"5/8 in","depth":"1/8 in"},{"kind":"balance","diameter":"1 1/4 in","depth":"3 in","device":"none"}],
        "circumstances":{"ballNumber":7,"playBegan":false,"frozen":true}}
        """;
}
