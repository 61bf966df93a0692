using System.Security.Cryptography;
using System.Text;
using Microsoft.Extensions.FileProviders;

namespace Inspect.Station.Web;

/// <summary>The style sheets, scripts and images of the pages. Their address has a hash of their content, so a browser fetches each
/// once and keeps it.</summary>
/// <remarks>Scripts and style sheets use relative addresses for each other, so they stay under that address.</remarks>
public sealed class PageFiles(IWebHostEnvironment environment)
{
    private readonly string _version = VersionOf(environment.WebRootFileProvider);

    /// <summary>The beginning of every address of a file.</summary>
    public string Root => $"/files-{_version}";

    /// <summary>The address of a file of <c>wwwroot</c>.</summary>
    public string this[string file] => $"{Root}/{file}";

    /// <summary>Serves the files. Browsers may keep them for a year.</summary>
    public void Serve(WebApplication app) => app.UseStaticFiles(new StaticFileOptions
    {
        RequestPath = Root,
        OnPrepareResponse = served => served.Context.Response.Headers.CacheControl = "public, max-age=31536000, immutable",
    });

    private static string VersionOf(IFileProvider files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (path, file) in All(files, "").OrderBy(each => each.Path, StringComparer.Ordinal))
        {
            using var stream = file.CreateReadStream();
            hash.AppendData(Encoding.UTF8.GetBytes(path));
            hash.AppendData(SHA256.HashData(stream));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..12];
    }

    private static IEnumerable<(string Path, IFileInfo File)> All(IFileProvider files, string folder) =>
        files.GetDirectoryContents(folder).SelectMany(
        each => each.IsDirectory ? All(files, $"{folder}/{each.Name}") : [($"{folder}/{each.Name}", each)]);
}
