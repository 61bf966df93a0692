using Inspect.Station.Access;
using Inspect.Station.BeforeDrilling;
using Inspect.Station.CommandLine;
using Inspect.Station.Decide;
using Inspect.Station.Desk;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Instruments;
using Inspect.Station.Judge;
using Inspect.Station.Measure;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Prove;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Rulesets;
using Inspect.Station.Scan;
using Inspect.Station.Storage;
using Inspect.Station.Web;

// A verb does its work and ends; without one the station starts.
if (Verbs.Run(args) is { } exitCode)
{
    return exitCode;
}

// Where it listens, and the folder it keeps everything in.
if (!StationOptions.TryParse(args, Environment.GetEnvironmentVariable, out var options, out var fault)
    || !DataFolder.TryHold(options.DataFolder, out var folder, out fault))
{
    return Start.Refuse(fault);
}

using var held = folder;

// The rules; nothing is judged by a ruleset that is not wholly understood.
if (!Start.TryOpenBook(options, out var book, out fault))
{
    return Start.Refuse(fault);
}

var builder = Start.CreateBuilder(options);

// What every step stands on: the store, who signs in, how answers look.
builder.Services.AddStorage(folder);
builder.Services.AddSignIn(folder);
builder.Services.AddWeb();

// The steps of the story.
builder.Services.AddPrepare();
builder.Services.AddQueue();
builder.Services.AddInstruments();
builder.Services.AddRecord(book);
builder.Services.AddDecide();
builder.Services.AddPapers();
builder.Services.AddProve();
builder.Services.AddDesk();

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

// Every address, in story order.
app.MapHome();
app.MapSignInPages();
app.MapSessionApi();
app.MapPeoplePages();
app.MapEventPages();
app.MapPreparePages();
app.MapEventsApi();
app.MapEventRulesPages();
app.MapInstruments();
app.MapBeforeDrillingPages();
app.MapFindBowlerPages();
app.MapDoorPages();
app.MapQueuePages();
app.MapWallPages();
app.MapEventTablePages();
app.MapEntryPages();
app.MapMeasurePages();
app.MapUnfinishedPages();
app.MapJudgeApi();
app.MapInspectionsApi();
app.MapFindApi();
app.MapRulingsApi();
app.MapRulingPages();
app.MapInspectionPages();
app.MapPhotographPages();
app.MapScanRoutes();
app.MapRegisterApi();
app.MapRegisterPages();
app.MapDeskPages();
app.MapReplayPages();
app.MapChartsPages();
app.MapPaperRoutes();
app.MapReportPages();
app.MapRulesetPages();
app.MapRulesetsApi();
app.MapHealth();
app.MapOpenApiDocument();

return await Start.Run(app, options);
