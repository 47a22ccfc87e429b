using System.Text.Json;
using System.Text.Json.Serialization;

namespace Accession.Server.Hosting;

/// <summary>How the JSON doors write and read: camelCase, words for kinds, and nothing unknown passed over.</summary>
internal static class ApiJson
{
    public static JsonSerializerOptions Options { get; } = Made();

    public static void Use(JsonSerializerOptions json)
    {
        json.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        json.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        // A name that is misspelt would otherwise count as not sent, and the request do something else.
        json.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        json.NumberHandling = JsonNumberHandling.Strict;
        json.RespectRequiredConstructorParameters = false;
    }

    private static JsonSerializerOptions Made()
    {
        var json = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        Use(json);
        json.MakeReadOnly(populateMissingResolver: true);
        return json;
    }
}
