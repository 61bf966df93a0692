namespace Inspect.Sheets.Tests;

/// <summary>A sheet with every member written.</summary>
internal static class FullSheet
{
    public const string Json = """
        {"play":"2027-03-14","authority":"us-national","edition":"us-national/2020-08-01","plan":["gross-weight","left-right"],
        "grip":{"hand":"right","digits":["thumb","middle","ring"],"demonstrated":true},
        "ball":{"maker":"Örtel","model":"Nord \"7\"","serial":"7K2M0419","listed":"yes","made":"2024-05",
        "houseBall":{"suppliedByCentre":true,"shell":"polyester","differential":"0.020 in","drilledForBowler":false},"oilAbsorption":"95 min","highPerformanceCore":true,
        "declared":{"rg":"2.480 in","differential":"0.050 in","intermediate":"0.015 in"},
        "pin":{"arc":"3 in","azimuth":"75 deg"},"massBias":{"angle":"88 deg","azimuth":"-20 deg"},"gravityMark":{"arc":"0.75 in","azimuth":"10 deg"}},
        "marks":{"modelReadable":true,"serialReadable":true,"palmMarks":0,"foreignMaterial":false,"surfacePattern":false},
        "weights":{"gross":"15 lb 1½ oz","topBottom":"1.250 oz","leftRight":"−0.5 oz","fingerThumb":"0.25 oz","anyHalves":"1 oz","scaleConstant":"4.1 in"},
        "size":{"diameters":["8.580 in","8 37/64 in"],"circumference":"26.95 in",
          "diameterGauge":"8.500 to 8.595 in","circumferenceGauge":"26.704 to 27.002 in"},
        "hardness":{"readings":["74","75.0","74"],"temperature":"72 °F"},
        "surface":{"roughness":["18 µin","0.45 um"]},
        "holes":[{"kind":"grip","digit":"thumb","diameter":"31/32 in","depth":"2 3/4 in","depthTo":"rim",
        "position":{"arc":"2 1/2 in","azimuth":"270 deg"},"pitch":{"south":"3/8 in","east":"−1/16 in"},"secondaryHole":false,
        "pieces":[{"diameter":"31/32 in","depth":"2 3/4 in"},{"diameter":"1 1/16 in","depth":"2.75 in"}]},
        {"kind":"indentation","digit":"index"},{"kind":"vent","in":"thumb","diameter":"1/4\""},
        {"kind":"mill","diameter":"5/8 in","depth":"1/8 in"},{"kind":"balance","diameter":"1 1/4 in","depth":"3 in","device":"none"}],
        "circumstances":{"ballNumber":7,"playBegan":false,"frozen":true}}
        """;
}
