package server

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v2"
)

func schema(t *testing.T, sort string) *jsonschema.Schema {
	t.Helper()
	text, err := Schema(sort)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	return c.MustCompile("schema.json")
}

// asJSON is front matter as a program sees it that reads it as YAML.
func asJSON(t *testing.T, front string) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(front), &v); err != nil {
		return nil // which not-portable tells of
	}
	var plain func(any) any
	plain = func(v any) any {
		switch v := v.(type) {
		case map[any]any:
			m := map[string]any{}
			for k, x := range v {
				m[fmt.Sprint(k)] = plain(x)
			}
			return m
		case []any:
			for i := range v {
				v[i] = plain(v[i])
			}
		}
		return v
	}
	data, err := json.Marshal(plain(v))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestSchema(t *testing.T) {
	paths, err := filepath.Glob("../../../example-build/*.md")
	if err != nil || len(paths) < 20 {
		t.Fatal(paths, err)
	}
	checked := 0
	for _, p := range paths {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		_, rest, _ := strings.Cut(string(text), "---\n")
		front, _, _ := strings.Cut(rest, "\n---\n")
		sort := "session"
		switch {
		case filepath.Base(p) == "build.md":
			sort = "card"
		case strings.HasPrefix(front, "page:"):
			sort = "page"
		}
		doc := asJSON(t, front)
		if doc == nil {
			continue
		}
		checked++
		if err := schema(t, sort).Validate(doc); err != nil {
			t.Errorf("%s: %v", p, err)
		}
	}
	if checked < 10 {
		t.Errorf("only %d notes were checked", checked)
	}
	for front, sort := range map[string]string{"stages: a": "session", "parts:\n  rear beam: needed beam": "session", "parts:\n  rear-beam: neded beam": "session", "cost: []": "session", "tool: a": "garage"} {
		if schema(t, sort).Validate(asJSON(t, front)) == nil {
			t.Errorf("%q passes", front)
		}
	}
}
