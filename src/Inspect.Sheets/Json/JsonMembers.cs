using System.Text.Json;

namespace Inspect.Sheets.Json;

/// <summary>The members of a JSON object, listed once: written in the order of this list for people and programs, and in the order of their
/// names where the bytes are hashed.</summary>
public sealed class JsonMembers<T>
{
    private readonly JsonMember<T>[] _asListed;
    private readonly JsonMember<T>[] _byName;

    public JsonMembers(params JsonMember<T>[] members)
    {
        _asListed = members;
        _byName = [.. members.OrderBy(member => member.Name.Value, StringComparer.Ordinal)];
    }

    /// <summary>Writes the object; members without a value are left out.</summary>
    /// <param name="to">Where it is written.</param>
    /// <param name="value">What is written.</param>
    /// <param name="byName">Whether members stand in the order of their names.</param>
    public void Write(Utf8JsonWriter to, T value, bool byName)
    {
        to.WriteStartObject();
        foreach (var member in byName ? _byName : _asListed)
        {
            member.Write(to, member.Name, value, byName);
        }

        to.WriteEndObject();
    }
}

/// <summary>One member: its name, and how it is written.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Write">Writes name and value; nothing where there is no value.</param>
public sealed record JsonMember<T>(JsonEncodedText Name, Action<Utf8JsonWriter, JsonEncodedText, T, bool> Write);

/// <summary>The kinds of members.</summary>
public static class JsonMember
{
    /// <summary>A text.</summary>
    public static JsonMember<T> Text<T>(string name, Func<T, string?> of) => Of<T>(name, (to, encoded, value, _) =>
    {
        if (of(value) is { } text)
        {
            to.WriteString(encoded, text);
        }
    });

    /// <summary>Yes or no.</summary>
    public static JsonMember<T> Flag<T>(string name, Func<T, bool?> of) => Of<T>(name, (to, encoded, value, _) =>
    {
        if (of(value) is { } flag)
        {
            to.WriteBoolean(encoded, flag);
        }
    });

    /// <summary>A whole number.</summary>
    public static JsonMember<T> Number<T>(string name, Func<T, int?> of) => Of<T>(name, (to, encoded, value, _) =>
    {
        if (of(value) is { } number)
        {
            to.WriteNumber(encoded, number);
        }
    });

    /// <summary>An object with members of its own.</summary>
    public static JsonMember<T> Part<T, TPart>(string name, Func<T, TPart?> of, JsonMembers<TPart> members)
        where TPart : class => Of<T>(name, (to, encoded, value, byName) =>
    {
        if (of(value) is { } part)
        {
            to.WritePropertyName(encoded);
            members.Write(to, part, byName);
        }
    });

    /// <summary>A list of objects.</summary>
    public static JsonMember<T> List<T, TItem>(string name, Func<T, IReadOnlyList<TItem>?> of, JsonMembers<TItem> members) =>
        List(name, of, members.Write);

    /// <summary>A list of texts.</summary>
    public static JsonMember<T> Texts<T, TItem>(string name, Func<T, IReadOnlyList<TItem>?> of, Func<TItem, string> text) =>
        List(name, of, (to, item, _) => to.WriteStringValue(text(item)));

    /// <summary>A member that is written in a way of its own.</summary>
    public static JsonMember<T> Of<T>(string name, Action<Utf8JsonWriter, JsonEncodedText, T, bool> write) =>
        new(JsonEncodedText.Encode(name), write);

    private static JsonMember<T> List<T, TItem>(
        string name, Func<T, IReadOnlyList<TItem>?> of, Action<Utf8JsonWriter, TItem, bool> write) =>
        Of<T>(name, (to, encoded, value, byName) =>
        {
            if (of(value) is { } items)
            {
                to.WriteStartArray(encoded);
                for (var i = 0; i < items.Count; i++)
                {
                    write(to, items[i], byName);
                }

                to.WriteEndArray();
            }
        });
}
