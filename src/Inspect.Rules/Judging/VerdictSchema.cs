namespace Inspect.Rules.Judging;

/// <summary>The JSON schema (draft 2020-12) of a verdict as <see cref="VerdictJson"/> writes it.</summary>
public static class VerdictSchema
{
    public const string Text = """
        {
          "type": "object",
          "description": "What the rules say of a sheet. A member without a value is absent.",
          "required": ["outcome", "findings"],
          "additionalProperties": false,
          "properties": {
            "outcome": { "type": "string", "enum": ["pass", "fail", "hold"], "description": "Any fail makes a fail, else any hold a hold; no finding at all is a hold." },
            "cause": { "type": "string", "enum": ["no-edition"], "description": "Given when no edition is in force on the day of play." },
            "edition": {
              "type": "object", "required": ["id", "sha256"], "additionalProperties": false, "description": "The edition judged under and the hash of its file.",
              "properties": { "id": { "type": "string" }, "sha256": { "type": "string" } }
            },
            "supplements": {
              "type": "array", "minItems": 1, "description": "The event's own rules judged under, each with the hash of its file.",
              "items": {
                "type": "object", "required": ["id", "version", "sha256"], "additionalProperties": false,
                "properties": { "id": { "type": "string" }, "version": { "type": "string", "format": "date" }, "sha256": { "type": "string" } }
              }
            },
            "decision": { "type": "string", "enum": ["guarded-acceptance", "guarded-rejection"], "description": "How a reading near a limit was decided, where not by the reading alone." },
            "guardFactor": { "type": "string", "description": "The width of the guard band in standard uncertainties." },
            "findings": {
              "type": "array", "description": "One for each rule that applies, in the edition's order; then those of the event's own rules.",
              "items": {
                "type": "object", "required": ["rule", "subject", "outcome", "reason", "reference"], "additionalProperties": false,
                "properties": {
                  "rule": { "type": "string", "description": "The rule's id." },
                  "subject": { "type": "string", "description": "ball, or the hole as an inspector calls it." },
                  "path": { "type": "string", "description": "The member of the sheet that was read or is missing, such as holes[0].depth." },
                  "outcome": { "type": "string", "enum": ["pass", "fail", "hold"] },
                  "cause": {
                    "type": "string", "enum": ["not-measured", "near-limit", "limit-unconfirmed", "discretion", "rule-error"], "description": "Why it holds."
                  },
                  "measured": { "type": "string", "description": "The reading as typed, or the figure formed of several." },
                  "limit": { "type": "string", "description": "What is allowed, in words." },
                  "margin": { "type": "string", "description": "The signed distance from the limit in the notation of the reading; negative is outside." },
                  "conformance": { "type": "string", "description": "The probability that the ball conforms, near a limit and with a known uncertainty." },
                  "reason": { "type": "string", "description": "One sentence." },
                  "reference": {
                    "type": "object", "required": ["title", "basis"], "additionalProperties": false, "description": "Where the rule was read, and how sure that is.",
                    "properties": {
                      "title": { "type": "string" }, "section": { "type": "string" },
                      "basis": { "type": "string", "enum": ["official", "reprint", "summary", "memory"] }
                    }
                  },
                  "supplement": { "type": "string", "description": "The event's own rules that it comes from, where it does not come from the edition." },
                  "confirmed": {
                    "type": "object", "required": ["by", "on", "document"], "additionalProperties": false,
                    "description": "Who confirmed the limit, where it was known from memory or not found.",
                    "properties": { "by": { "type": "string" }, "on": { "type": "string", "format": "date" }, "document": { "type": "string" } }
                  }
                }
              }
            },
            "notChecked": { "type": "array", "items": { "type": "string" }, "minItems": 1, "description": "The ids of the rules outside the plan." },
            "notes": {
              "type": "array", "minItems": 1, "description": "Advice that is no rule.",
              "items": {
                "type": "object", "required": ["id", "text"], "additionalProperties": false,
                "properties": { "id": { "type": "string" }, "text": { "type": "string" } }
              }
            }
          }
        }
        """;
}
