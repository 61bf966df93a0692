using System.Security.Cryptography;
using System.Text;
using Microsoft.Extensions.FileProviders;

namespace Inspect.Station.Web;

/// <summary>The files that pages wear and run, under an address that changes with them: a browser fetches each once and keeps it.</summary>
/// <remarks>Scripts and style sheets name each other by relative addresses, which stay inside that address.</remarks>
public sealed class PageFiles(IWebHostEnvironment environment)
{
    private readonly string _version = VersionOf(environment.WebRootFileProvider);

    /// <summary>What every address of a file begins with.</summary>
    public string Root => $"/files-{_version}";

    /// <summary>The address of a file of <c>wwwroot</c>.</summary>
    public string this[string file] => $"{Root}/{file}";

    /// <summary>Serves the files, to be kept for a year without asking again.</summary>
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

    private static IEnumerable<(string Path, IFileInfo File)> All(IFileProvider files, string folder) => files.GetDirectoryContents(folder).SelectMany(
        each => each.IsDirectory ? All(files, $"{folder}/{each.Name}") : [($"{folder}/{each.Name}", each)]);
}
