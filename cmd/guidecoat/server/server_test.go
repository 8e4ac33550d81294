package server

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

const axle = `-- 2026-04-11.md --
---
stage: rear axel
time: 3h40 beam out
cost:
  - 3 x 4.99 grease; as consumables; from Tidewell Dismantlers
---
- [ ] temporary exhaust-hanger: hung on wire
`

func TestProblemsAsTyped(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	d := e.problems("2026-04-11.md", "unknown-stage")
	if got := e.in("2026-04-11.md", d[0].Range); got != "rear axel" || d[0].Severity != 1 {
		t.Errorf("the problem stands at %q, severity %d", got, d[0].Severity)
	}
	e.replace("2026-04-11.md", "axel", "axle")
	e.problems("2026-04-11.md")
	e.replace("2026-04-11.md", "; as consumables", "; as consumable")
	e.problems("2026-04-11.md", "unknown-category")
	// A change here is a problem elsewhere, of a file that is not open.
	e.open("build.md")
	e.replace("build.md", "rear axle", "front axle")
	e.problems("2026-04-11.md", "unknown-stage", "unknown-category")
}

func TestHover(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	var h hover
	e.ask("textDocument/hover", e.at("2026-04-11.md", "3 x 4|.99"), &h)
	if h.Contents.Value != "14.97 · consumables · no stage · from Tidewell Dismantlers" {
		t.Errorf("hover says %q", h.Contents.Value)
	}
	// Whatever is said of a place, it says of what stands there.
	for at, want := range map[string]string{"co|st:": "cost", "; a|s cons": "as", "\n|  - 3 x": "  - 3 x 4.99 grease; as consumables; from Tidewell Dismantlers", "Tide|well": "Tidewell Dismantlers"} {
		e.ask("textDocument/hover", e.at("2026-04-11.md", at), &h)
		if got := e.in("2026-04-11.md", h.Range); got != want {
			t.Errorf("at %q it says something of %q, want %q", at, got, want)
		}
	}
}

const beam = `-- 2026-04-11.md --
---
stage: rear axle
parts:
  rear-beam: needed axle beam; system suspension; estimate 90 140 200
cost:
  - 138.00 beam; for rear-beam; from Tidewell Dismantlers
---
# Out

- [ ] beam-in: fit the beam; waits for rear-beam
- [ ] temporary exhaust-hanger: hung on wire
- [ ] sweep the floor

## Later

` + "```scan abs\nC0035 left front wheel speed\n```" + `
-- 2026-04-12.md --
---
stage: rear axle
parts:
  rear-beam: ordered from the coast
readings:
  disc-left: 7.7 mm; min 8.0 mm

---
- [x] 
- [ ] job new-disc: buy; waits for reading-disc-left
`

// labels are what is offered at a place.
func (e *editor) labels(name, words string) []string {
	e.t.Helper()
	var list completionList
	e.ask("textDocument/completion", e.at(name, words), &list)
	labels := []string{}
	for _, item := range list.Items {
		labels = append(labels, item.Label)
	}
	return labels
}

func TestCompletion(t *testing.T) {
	for _, test := range []struct{ old, new, at, want string }{
		{"\n\n---", "\nti\n---", "ti|", "time"},                           // a key
		{"7.7 mm", "7.7 mm; sp", "; sp|", "spec"},                         // a clause
		{"min 8.0 mm", "system sus", "system sus|", "suspension"},         // a word of a list
		{"\n\n---", "\ncost: 9.00 seal; for \n---", "for |", "rear-beam"}, // a part
		{"\n\n---", "\ncost: 9.00 seal; from Ti\n---", "from Ti|", "Tidewell Dismantlers"},
		{"\n\n---", "\ncost: 9.00 seal; stage rear \n---", "; stage rear |", "rear axle"},
		{"\n\n---", "\ncost: 9.00 seal; on \n---", "; on |", "2026-11-25"},
		{"\n\n---", "\nchecks:\n  whe\n---", "  whe|", "wheel-retorque"},   // a name
		{"\n\n---", "\nchecks:\n  wheel-retorque: d\n---", ": d|", "done"}, // the head of a line
		{"rear-beam: ordered", "rear-beam: arr", ": arr|", "arrived"},
		{"[x] ", "[x] exh", "[x] exh|", "exhaust-hanger"}, // what is open, to tick
		{"[x] ", "[x] swe", "[x] swe|", "sweep the floor"},
		{"[x] ", "[ ] temp", "[ ] temp|", "temporary"},
		{"; waits for reading-disc-left", "; waits for be", "waits for be|", "beam-in"},
		{"; waits for reading-disc-left", "; waits for rear-be", "waits for rear-be|", "rear-beam"},
		{"rear-beam: ordered", "rear-beam: fitted", "waits for re|", "rear-beam"}, // what is here, too
		{"; waits for reading-disc-left", "; ta", "; ta|", "takes"},
		{"stage: rear axle", "stage: b", "stage: b|", "body"},
		{"[x] ", "[x] \n\n```sc", "```sc|", "scan abs"}, // a block of fault codes, by the units there were
		{"[x] ", "[x] \n\n```scan ", "```scan |", "scan"},
		{"from the coast", "from the coast; asks for whe", "asks for whe|", "wheel-retorque"},
		{"from the coast", "from the coast; asks for no", "asks for no|", "nothing"},
		{"from the coast", "from the coast; photo ", "photo |", "photos/beam.jpg"},
	} {
		e := start(t, beam+"-- photos/beam.jpg --\n", "")
		e.open("2026-04-12.md")
		e.problems("2026-04-12.md", "tick-without-id")
		e.replace("2026-04-12.md", test.old, test.new)
		if got := e.labels("2026-04-12.md", test.at); !slices.Contains(got, test.want) {
			t.Errorf("at %q it offers %q, not %q", test.at, got, test.want)
		}
	}
}

func TestInlayHints(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	var hints []inlayHint
	e.ask("textDocument/inlayHint", map[string]any{"textDocument": map[string]any{"uri": e.uri("2026-04-11.md")}, "range": map[string]any{
		"start": map[string]any{"line": 0, "character": 0}, "end": map[string]any{"line": 5, "character": 0}}}, &hints)
	if len(hints) != 2 || hints[1].Position.Line != 4 || hints[1].Label != "14.97 · consumables · no stage" { // whence is typed behind it
		t.Errorf("hints %v", hints)
	}
}

// Positions are as was agreed, whatever stands before them.
func TestPositions(t *testing.T) {
	for _, capabilities := range []string{"", `{"general":{"positionEncodings":["utf-8","utf-16"]}}`} {
		e := start(t, axle, capabilities)
		e.open("2026-04-11.md", byteOrderMark+"---\r\ntitle: é😀漢\r\n---\r\n<!-- 😀\nhidden -->é😀 <!-- again --> - x\r\n- [ ] temporary é😀: hang; majo\r\n")
		d := e.problems("2026-04-11.md", "unknown-clause")
		l := linesOf(e.texts["2026-04-11.md"], capabilities != "")
		if r := d[0].Range; l.text[l.offset(r.Start):l.offset(r.End)] != "majo" || r.Start.Line != 5 {
			t.Errorf("with %s the problem stands at %v", capabilities, r)
		}
	}
}

// act carries out the first quick fix of that title, as an editor does.
func (e *editor) act(name, at, title string) bool {
	e.t.Helper()
	place := e.at(name, at)
	var list []codeAction
	e.ask("textDocument/codeAction", map[string]any{"textDocument": place["textDocument"], "range": textRange{place["position"].(position), place["position"].(position)},
		"context": map[string]any{"diagnostics": []any{}}}, &list)
	for _, a := range list {
		if a.Title != title {
			continue
		}
		l := linesOf(e.texts[name], false)
		for _, x := range a.Edit.Changes[e.uri(name)] {
			e.texts[name] = l.edit(change{&x.Range, x.NewText})
		}
		e.versions[name]++
		e.notify("textDocument/didChange", map[string]any{"textDocument": map[string]any{"uri": e.uri(name), "version": e.versions[name]},
			"contentChanges": []any{map[string]any{"text": e.texts[name]}}})
		return true
	}
	e.t.Errorf("no %q among %v", title, list)
	return false
}

func TestQuickFixes(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	e.problems("2026-04-11.md", "unknown-stage")
	if e.act("2026-04-11.md", "rear a|xel", `Write "rear axle"`) {
		e.problems("2026-04-11.md")
	}
	e.replace("2026-04-11.md", "hung on wire", "hung on wire; waits for <!-- what? --> exhaust-hangr")
	e.problems("2026-04-11.md", "unknown-waits-for")
	if e.act("2026-04-11.md", "exhaust-hang|r", `Write "exhaust-hanger"`) {
		e.problems("2026-04-11.md", "waits-in-circle")
	}
	e.replace("2026-04-11.md", "; waits for <!-- what? --> exhaust-hanger", "")
	e.replace("2026-04-11.md", "3 x 4.99 grease", "4 bolts 12.00")
	e.problems("2026-04-11.md", "half-read")
	if e.act("2026-04-11.md", "12|.00", `It is meant so: write "; sure"`) {
		e.problems("2026-04-11.md", "half-read")
		if d := e.problems("2026-04-11.md", "half-read"); d[0].Severity != 3 {
			t.Errorf("what is sure is still told with severity %d", d[0].Severity)
		}
	}
}

func TestGarage(t *testing.T) {
	garage := "-- garage.md --\n---\ngarage: The old dairy\ncurrency: GBP\ntools:\n  - 240.00 impact wrench; over 6 builds\n---\n" +
		"-- one/build.md --\n" + card + "-- one/2026-04-11.md --\n---\nstage: bodi\n---\n-- two/build.md --\n" + card + "-- two/2026-04-11.md --\n---\nstage: body\n---\n- [ ] job door-seal: glue\n-- README.md --\n# Not a note\n\n- [ ] job\n"
	e := start(t, garage+"-- build.md --\n", "")
	if err := os.Remove(filepath.Join(e.dir, "build.md")); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"garage.md", "one/2026-04-11.md", "two/2026-04-11.md", "README.md"} {
		e.open(name)
	}
	e.problems("garage.md", "tool-needs-on")
	e.problems("one/2026-04-11.md", "unknown-stage")
	e.problems("two/2026-04-11.md")
	if got := e.labels("one/2026-04-11.md", "stage: bo|"); !slices.Contains(got, "body") {
		t.Errorf("a garage's build offers %q", got)
	}
	e.replace("garage.md", "builds\n", "builds; on 2026-02-01\n")
	e.problems("garage.md")
	e.mu.Lock()
	_, told := e.told["README.md"]
	e.mu.Unlock()
	if told {
		t.Error("problems are told of a file that is no note")
	}
	// A build that vanishes has no problems, and comes back.
	if err := os.RemoveAll(filepath.Join(e.dir, "two")); err != nil {
		t.Fatal(err)
	}
	e.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	e.ask("textDocument/hover", e.at("two/2026-04-11.md", "door-s|eal"), nil)
	write(t, filepath.Join(e.dir, "two"), "-- 2026-04-12.md --\n---\nstage: bdy\n---\n")
	e.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	e.problems("two/2026-04-12.md", "unknown-stage")
}

// What is told after a keystroke is all that there is to tell of that note: nothing is
// added or taken back when the keys rest.
func TestFirstTellingIsWhole(t *testing.T) {
	e := start(t, axle+"\nDrove to Tidewell Dismantlers.\n-- 2026-04-12.md --\n---\nparts:\n  beam: ordered rear beam\n---\n- [x] exhaust-hanger: rubber in\n", "")
	e.open("2026-04-11.md")
	e.problems("2026-04-11.md", "unknown-stage", "private-words")
	for _, step := range []struct{ old, new, want string }{
		{"3h40", "3k40", "unknown-stage bad-duration private-words"}, // in its line
		{"axel", "axle", "bad-duration private-words"},               // with the card
		{"3k40", "3h40", "private-words"},
		{"Drove to", "Back from Harnwick, then", "private-words"},                                  // on the pages
		{"; from Tidewell Dismantlers", "; for beem; from Harnwick", "unknown-part private-words"}, // with another note
		{"on wire", "on wire; waits for exhaust-hanger", "unknown-part waits-in-circle private-words"},
	} {
		e.replace("2026-04-11.md", step.old, step.new)
		time.Sleep(4 * restful)
		e.mu.Lock()
		var told []string
		for _, p := range e.all {
			if p.Version != nil && *p.Version == e.versions["2026-04-11.md"] {
				var codes []string
				for _, d := range p.Diagnostics {
					codes = append(codes, d.Code)
				}
				told = append(told, strings.Join(codes, " "))
			}
		}
		e.mu.Unlock()
		want(t, "after "+step.new, told, step.want)
	}
}

// Front matter that is being typed is understood before its end is there.
func TestFrontMatterAsTyped(t *testing.T) {
	e := start(t, axle, "")
	for text, want := range map[string]string{
		"---": "unclosed-front-matter", "---\n": "unclosed-front-matter",
		"---\nstage: rear axel\ncost: 9.00 seal; for b": "unclosed-front-matter unknown-stage unknown-part",
		"---\r\nstage: rear axel\r\n\r\n":               "unclosed-front-matter unknown-stage",
		"---\nstage: rear axel\n\nIt came off.\n":       "unclosed-front-matter", // where it was to end is not known
		"---\nstage: rear axel\n---\n\nIt came off.\n":  "unknown-stage",
	} {
		e.open("2026-04-12.md", text)
		told := e.problems("2026-04-12.md", strings.Fields(want)...)
		if last := told[len(told)-1]; strings.Contains(want, "unknown-stage") && !strings.Contains(want, "part") && e.in("2026-04-12.md", last.Range) != "rear axel" {
			t.Errorf("%q: the problem stands at %v", text, last.Range)
		}
	}
	e.open("2026-04-12.md", "---\nstage: rear axle\ncost: 3 x 4.99 grease")
	var hints []inlayHint
	e.ask("textDocument/inlayHint", map[string]any{"textDocument": map[string]any{"uri": e.uri("2026-04-12.md")}, "range": textRange{End: position{Line: 9}}}, &hints)
	if len(hints) != 1 || hints[0].Position != (position{2, 21}) {
		t.Errorf("hints %v", hints)
	}
	var tokens semanticTokens
	e.ask("textDocument/semanticTokens/full", map[string]any{"textDocument": map[string]any{"uri": e.uri("2026-04-12.md")}}, &tokens)
	if d := tokens.Data; len(d) != 15 || tokenTypes[d[3]] != "property" {
		t.Errorf("colours %v", d)
	}
}
