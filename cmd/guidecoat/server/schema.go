package server

import (
	"encoding/json"
	"regexp"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
)

// Schemas are the sorts of file whose front matter has a schema.
var Schemas = []string{"session", "card", "page", "garage"}

// Schema is a JSON Schema (draft 2020-12) of the front matter of one sort of file, for
// editors that read it as YAML. It knows keys, names and words of choice; what stands
// behind them only the program can read.
func Schema(sort string) ([]byte, error) {
	kinds := map[string][]*note.Kind{"session": note.Session, "card": note.Card, "page": note.Page, "garage": note.Garage}[sort]
	properties := map[string]any{}
	for _, k := range kinds {
		properties[k.Key] = schemaOf(k)
	}
	return json.MarshalIndent(map[string]any{
		"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "guidecoat " + sort,
		"type": "object", "properties": properties, "additionalProperties": false,
	}, "", "  ")
}

func schemaOf(k *note.Kind) map[string]any {
	line := map[string]any{"type": []string{"string", "number", "boolean"}}
	if k.Head != nil && k.Head.Near != nil && k.Shape == note.Named {
		line["type"], line["pattern"] = "string", "^("+strings.Join(pick.Map(k.Head.Near, regexp.QuoteMeta), "|")+")([ ,;]|$)"
	}
	if k.Bare {
		line["type"] = []string{"string", "number", "boolean", "null"}
	}
	schema := line
	switch k.Shape {
	case note.Many:
		schema = map[string]any{"anyOf": []any{line, map[string]any{"type": "array", "items": line, "minItems": 1}}}
	case note.Named:
		named := map[string]any{"type": "object", "additionalProperties": line, "minProperties": 1}
		if k.Name != nil && k.Name.Flaw == note.BadID {
			named["propertyNames"] = map[string]any{"pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"}
		}
		entry := any(named)
		if k.Bare {
			entry = map[string]any{"anyOf": []any{named, map[string]any{"type": "string"}}}
		}
		schema = map[string]any{"anyOf": []any{named, map[string]any{"type": "array", "items": entry, "minItems": 1}}}
	}
	schema["description"] = k.About
	if len(k.Clauses) > 0 {
		clauses := pick.Map(k.Clauses, func(c note.Clause) string { return c.Word })
		schema["description"] = k.About + ". Clauses: " + strings.Join(clauses, ", ")
	}
	return schema
}
