namespace Inspect.Station.Web;

/// <summary>The words for a refusal without a sentence of its own, on pages and in problem documents.</summary>
public static class StatusWords
{
    /// <summary>The heading of an HTTP status.</summary>
    public static string Title(int status) => status switch
    {
        400 => "The request cannot be used",
        401 => "Not signed in",
        403 => "Not allowed",
        404 => "Not found",
        405 => "Not possible here",
        409 => "Conflicts with what is recorded",
        413 => "Too large",
        415 => "Wrong kind of content",
        422 => "The request cannot be used",
        429 => "Too many requests",
        503 => "Not available now",
        >= 500 => "The station failed",
        _ => "Refused",
    };

    /// <summary>One sentence that says what is wrong and what to do.</summary>
    public static string Sentence(int status) => status switch
    {
        400 => "What was sent cannot be read: go back, check it, and send it again.",
        401 => "Sign in first.",
        403 => "This sign-in may not do that: ask the tournament director.",
        404 => "There is no page at this address. Check it for a missing or wrong character.",
        405 => "This address does not take that kind of request.",
        413 => "What was sent is larger than the station takes.",
        415 => "Send a changing request to the station as application/json.",
        429 => "Too many requests in a short time. Wait a moment and try again.",
        503 => "The station cannot write to its store just now: check the disk that its data is on.",
        >= 500 => "Something went wrong inside the station; nothing was half recorded. Try once more, "
            + "and tell the person who runs the station if it happens again.",
        _ => "The station refused this request.",
    };
}
