using Inspect.Station.Access;
using Inspect.Station.BeforeDrilling;
using Inspect.Station.Bring;
using Inspect.Station.Close;
using Inspect.Station.CommandLine;
using Inspect.Station.Custody;
using Inspect.Station.Decide;
using Inspect.Station.Desk;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Home;
using Inspect.Station.Import;
using Inspect.Station.Instruments;
using Inspect.Station.Judge;
using Inspect.Station.Lanes;
using Inspect.Station.Measure;
using Inspect.Station.ModelLists;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Prove;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Recorded;
using Inspect.Station.Rulesets;
using Inspect.Station.Scan;
using Inspect.Station.Slip;
using Inspect.Station.Storage;
using Inspect.Station.Terms;
using Inspect.Station.Web;

// A verb does its work and ends. Without a verb the station starts.
if (Verbs.Run(args) is { } exitCode)
{
    return exitCode;
}

// The addresses it listens on and the data folder.
if (!StationOptions.TryParse(args, Environment.GetEnvironmentVariable, out var options, out var fault)
    || !DataFolder.TryHold(options.DataFolder, out var folder, out fault))
{
    return Start.Refuse(fault);
}

using var held = folder;
if (options.IsEmpty)
{
    folder.Clear();
}

// The rules are read beside what follows.
var book = Task.Run(() => Start.OpenBook(options));

// Once, unless the trial begins anew.
while (true)
{
    var builder = Start.CreateBuilder(options);

    // The base: the store, the form of answers, sign-in.
    builder.Services.AddStorage(folder, options.AcceptsLoss);
    builder.Services.AddWeb(options.PublicUrl, options.Urls);
    builder.Services.AddSignIn(folder);

    // The event: its rules, its bowlers, its instruments.
    builder.Services.AddRulesets(() => book.Result.Book!);
    builder.Services.AddPrepare();
    builder.Services.AddImport();
    builder.Services.AddModelLists();
    builder.Services.AddInstruments();

    // The record: what was measured, what was ruled, how it is proved.
    builder.Services.AddRecord();
    builder.Services.AddDecide();
    builder.Services.AddProve();

    // The screens and papers.
    builder.Services.AddJudge();
    builder.Services.AddSlip();
    builder.Services.AddQueue();
    builder.Services.AddCustody();
    builder.Services.AddMeasure();
    builder.Services.AddRecorded();
    builder.Services.AddLanes();
    builder.Services.AddCharts();
    builder.Services.AddDesk();
    builder.Services.AddPapers();
    builder.Services.AddClose();
    builder.Services.AddHome();

    var app = builder.Build();

    // The pipeline, outermost first.
    app.UseErrorAnswers();
    app.UseSecurityHeaders();
    app.UseResponseCompression();
    app.Services.GetRequiredService<PageFiles>().Serve(app);
    app.UseRouting();
    app.UseSameOrigin();
    app.UseRateLimiter();
    app.UseAuthentication();
    app.UseAuthorization();
    app.UseAntiforgery();

    // The routes for programs, in the order of the API description.
    app.MapSessionApi();
    app.MapEventsApi();
    app.MapJudgeApi();
    app.MapInspectionsApi();
    app.MapFindApi();
    app.MapRulingsApi();
    app.MapSpotChecksApi();
    app.MapDrawsApi();
    app.MapScanRoutes();
    app.MapRegisterApi();
    app.MapRulesetsApi();
    app.MapHealth();
    app.MapOpenApiDocument();

    // The pages for people, floor by floor: the base,
    app.MapSignInPages();
    app.MapPeoplePages();

    // the event,
    app.MapRulesetPages();
    app.MapEventFormPages();
    app.MapImportPages();
    app.MapEntryChangePages();
    app.MapInstruments();
    app.MapModelListPages();
    app.MapBringListPages();

    // the record,
    app.MapRulingPages();
    app.MapCheckPages();
    app.MapRegisterPages();

    // the screens and papers.
    app.MapHomePages();
    app.MapTrialPages();
    app.MapCodesPages();
    app.MapEventPages();
    app.MapEventRulesPages();
    app.MapInstrumentTermsPages();
    app.MapBeforeDrillingPages();
    app.MapFindBowlerPages();
    app.MapDoorPages();
    app.MapQueuePages();
    app.MapWallPages();
    app.MapEventTablePages();
    app.MapBringPages();
    app.MapListPages();
    app.MapCustodyPages();
    app.MapEntryPages();
    app.MapMeasurePages();
    app.MapUnfinishedPages();
    app.MapSpotCheckPages();
    app.MapDrawPages();
    app.MapInspectionPages();
    app.MapPhotographPages();
    app.MapDeskPages();
    app.MapReplayPages();
    app.MapChartsPages();
    app.MapReadingsPages();
    app.MapPaperRoutes();
    app.MapCardPages();
    app.MapReportPages();
    app.MapStrikePages();
    app.MapArchivePages();

    // A ruleset that is not fully understood is never used to judge.
    if (await book is (null, var wrong))
    {
        return Start.Refuse(wrong);
    }

    var trial = app.Services.GetRequiredService<Trial>();
    var ended = await Start.Run(app, options);
    if (!trial.BeginsEmpty)
    {
        return ended;
    }

    // A director of the trial asked for it without its inspections.
    options = trial.Empty(options);
    folder.Clear();
}
