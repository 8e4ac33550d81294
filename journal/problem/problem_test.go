package problem

import (
	"bytes"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"guidecoat/journal/source"
)

func TestSeverity(t *testing.T) {
	for severity, want := range map[Severity]string{Error: "error", Warning: "warning", Information: "information", 0: "severity(0)"} {
		if got := severity.String(); got != want {
			t.Errorf("%d is %q, want %q", severity, got, want)
		}
	}
}

func TestSort(t *testing.T) {
	build := source.NewFile("build.md", []byte("one\ntwo\n"))
	note := source.NewFile("notes/2026-04-11.md", []byte("one\ntwo\n"))
	want := []Problem{
		{"a", Error, build.Span(0, 1), "first", "", nil, ""},
		{"a", Error, build.Span(2, 3), "first", "", nil, ""},
		{"a", Error, build.Span(2, 3), "second", "", nil, ""},
		{"b", Warning, build.Span(2, 3), "first", "", nil, ""},
		{"a", Warning, build.Span(4, 5), "first", "Help.", nil, ""},
		{"a", Warning, build.Span(4, 6), "first", "", nil, ""},
		{"a", Information, note.Span(0, 1), "first", "", nil, ""},
	}
	for range 50 {
		got := append([]Problem(nil), want...)
		rand.Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		Sort(got)
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("sorted to %v, want %v", got, want)
		}
	}
	if errors, warnings := Count(want); errors != 3 || warnings != 3 {
		t.Errorf("Count is %d, %d, want 3, 3", errors, warnings)
	}
}

func TestJSON(t *testing.T) {
	var out bytes.Buffer
	if err := WriteJSON(&out, nil); err != nil {
		t.Fatal(err)
	}
	if got, want := out.String(), "{\n  \"problems\": [],\n  \"errors\": 0,\n  \"warnings\": 0\n}\n"; got != want {
		t.Errorf("no problems print as %s, want %s", got, want)
	}

	file := source.NewFile("notes/2026 é.md", []byte("é: <b>&\nc"))
	problems := []Problem{
		{"odd", Error, file.Span(4, 8), `odd "<b>"`, "Write <i>.", &source.Fix{Span: file.Span(4, 7), Text: "<i>"}, ""},
		{"missing", Warning, file.Span(0, 0), "no date", "", nil, ""},
		{"hint", Information, file.Span(4, 10), "hint", "", nil, ""},
	}
	out.Reset()
	if err := WriteJSON(&out, problems); err != nil {
		t.Fatal(err)
	}
	want := `{
  "problems": [
    {
      "file": "notes/2026 é.md",
      "line": 1,
      "column": 4,
      "end_line": 1,
      "end_column": 8,
      "severity": "error",
      "check": "odd",
      "message": "odd \"<b>\"",
      "help": "Write <i>.",
      "fix": {
        "line": 1,
        "column": 4,
        "end_line": 1,
        "end_column": 7,
        "text": "<i>"
      }
    },
    {
      "file": "notes/2026 é.md",
      "line": 1,
      "column": 1,
      "end_line": 1,
      "end_column": 1,
      "severity": "warning",
      "check": "missing",
      "message": "no date",
      "help": null,
      "fix": null
    },
    {
      "file": "notes/2026 é.md",
      "line": 1,
      "column": 4,
      "end_line": 2,
      "end_column": 2,
      "severity": "information",
      "check": "hint",
      "message": "hint",
      "help": null,
      "fix": null
    }
  ],
  "errors": 1,
  "warnings": 1
}
`
	if got := out.String(); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestSARIF(t *testing.T) {
	file := source.NewFile("a:b/2026 é#1.md", []byte("é: {x}\nc"))
	problems := []Problem{
		{"odd", Error, file.Span(4, 7), "odd {x}", "Write y.", &source.Fix{Span: file.Span(4, 7), Text: "y"}, ""},
		{"hint", Information, file.Span(0, 0), "hint", "", nil, ""},
		{"unlisted", Warning, file.Span(4, 9), "unlisted", "", nil, ""},
	}
	rules := []Rule{
		{"hint", "A hint", "", Information},
		{"odd", "Odd {things}", "Odd things are odd.", Error},
	}
	log := sarif(t, problems, rules)
	run := log.Runs[0]
	if run.Columns != "unicodeCodePoints" || run.Tool.Driver.Name != "guidecoat" || run.Tool.Driver.Version != "1.2.3" {
		t.Errorf("the run is %+v", run)
	}
	if got := run.Tool.Driver.Rules; len(got) != 2 || got[1].ID != "odd" || got[1].Short.Text != "Odd {{things}}" || got[1].Full.Text != "Odd things are odd." || got[0].Full != nil || got[0].Default.Level != "note" {
		t.Errorf("the rules are %+v", got)
	}
	odd, hint, unlisted := run.Results[0], run.Results[1], run.Results[2]
	if fix := odd.Fixes[0].Changes[0].Replacements[0]; fix.Inserted.Text != "y" || fix.Deleted != (sarifRegion{1, 4, 1, 7}) || hint.Fixes != nil {
		t.Errorf("the fix is %+v", odd.Fixes)
	}
	if odd.Rule != "odd" || *odd.Index != 1 || odd.Level != "error" || odd.Message.Text != "odd {{x}}. Write y." {
		t.Errorf("the error is %+v", odd)
	}
	place := odd.Locations[0].Physical
	if want := (sarifPlace{sarifArtifact{"./a:b/2026%20%C3%A9%231.md"}, sarifRegion{1, 4, 1, 7}}); place != want {
		t.Errorf("the error is at %+v, want %+v", place, want)
	}
	if *hint.Index != 0 || hint.Level != "note" || hint.Locations[0].Physical.Region != (sarifRegion{1, 1, 1, 1}) {
		t.Errorf("the information is %+v", hint)
	}
	if unlisted.Index != nil || unlisted.Level != "warning" || unlisted.Locations[0].Physical.Region != (sarifRegion{1, 4, 2, 2}) {
		t.Errorf("the warning without a rule is %+v", unlisted)
	}
	if got := sarif(t, nil, nil).Runs[0].Results; got == nil {
		t.Error("no problems are null, want an empty list")
	}
}

// sarif returns the log written, once it is found to follow the schema.
func sarif(t *testing.T, problems []Problem, rules []Rule) (log sarifLog) {
	t.Helper()
	var out bytes.Buffer
	if err := WriteSARIF(&out, problems, rules, "1.2.3"); err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	compiler.AssertFormat()
	schema, err := compiler.Compile("testdata/sarif-2.1.0-rtm.5.json")
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(out.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(value); err != nil {
		t.Errorf("%v\n%s", err, out.String())
	}
	if err := json.Unmarshal(out.Bytes(), &log); err != nil {
		t.Fatal(err)
	}
	return log
}

// A full stands for an output that takes nothing.
type full struct{}

var errFull = errors.New("full")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrors(t *testing.T) {
	problems := []Problem{at(t, "⟦a⟧")}
	problems[0].Help = strings.Repeat("long ", 10000)
	for name, err := range map[string]error{
		"text":  Text{}.Write(full{}, problems),
		"JSON":  WriteJSON(full{}, problems),
		"SARIF": WriteSARIF(full{}, problems, nil, ""),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: the error is %v, want %v", name, err, errFull)
		}
	}
}
