package server

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// places are where locations stand: "name:line text".
func (e *editor) places(list []location) []string {
	var got []string
	for _, l := range list {
		name := e.name(l.URI)
		if e.texts[name] == "" {
			data, err := os.ReadFile(filepath.Join(e.dir, name))
			if err != nil {
				e.t.Fatal(err)
			}
			e.texts[name] = string(data)
		}
		got = append(got, fmt.Sprintf("%s:%d %s", name, l.Range.Start.Line+1, e.in(name, l.Range)))
	}
	slices.Sort(got)
	return got
}

func want(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s\n got %q\nwant %q", what, got, want)
	}
}

func TestNames(t *testing.T) {
	e := start(t, beam, "")
	e.open("2026-04-12.md")
	var list []location
	e.ask("textDocument/definition", e.at("2026-04-12.md", "rear-be|am"), &list)
	want(t, "where a part begins", e.places(list), "2026-04-11.md:4 rear-beam")
	e.ask("textDocument/definition", e.at("2026-04-12.md", "rear ax|le"), &list)
	want(t, "where a stage begins", e.places(list), "build.md:7 rear axle")
	params := e.at("2026-04-12.md", "rear-be|am")
	params["context"] = map[string]any{"includeDeclaration": true}
	e.ask("textDocument/references", params, &list)
	all := []string{"2026-04-11.md:10 rear-beam", "2026-04-11.md:4 rear-beam", "2026-04-11.md:6 rear-beam", "2026-04-12.md:4 rear-beam"}
	want(t, "where a part is named", e.places(list), all...)
	params["context"] = map[string]any{"includeDeclaration": false}
	e.ask("textDocument/references", params, &list)
	want(t, "where it is named again", e.places(list), "2026-04-11.md:10 rear-beam", "2026-04-11.md:6 rear-beam", "2026-04-12.md:4 rear-beam")

	var h hover
	e.ask("textDocument/hover", e.at("2026-04-12.md", "rear-be|am"), &h)
	for _, part := range []string{"138.00 paid", "2026-04-11 138.00 beam", "2026-04-12 rear-beam: ordered from the coast"} {
		if !strings.Contains(h.Contents.Value, part) {
			t.Errorf("the history of a part lacks %q:\n%s", part, h.Contents.Value)
		}
	}

	rename := func(at, name string) (map[string][]string, error) {
		var edit workspaceEdit
		params := e.at("2026-04-12.md", at)
		params["newName"] = name
		err := e.try("textDocument/rename", params, &edit)
		got := map[string][]string{}
		for uri, edits := range edit.Changes {
			for _, x := range edits {
				got[e.name(uri)] = append(got[e.name(uri)], e.in(e.name(uri), x.Range)+"→"+x.NewText)
			}
		}
		return got, err
	}
	got, err := rename("rear-be|am", "axle-beam")
	if err != nil || len(got["2026-04-11.md"]) != 3 || len(got["2026-04-12.md"]) != 1 {
		t.Errorf("renaming a part: %v, %v", got, err)
	}
	got, err = rename("disc-le|ft", "disc-front")
	want(t, "what follows from a reading is renamed with it", got["2026-04-12.md"], "disc-left→disc-front", "disc-left→disc-front")
	if err != nil {
		t.Error(err)
	}
	for at, names := range map[string][]string{"rear-be|am": {"Rear Beam", "beam-in", ""}, "rear ax|le": {"body", "a; b"}, "new-di|sc": {"disc"}} {
		for _, name := range names {
			if got, err := rename(at, name); err == nil {
				t.Errorf("%s is renamed %q: %v", at, name, got)
			}
		}
	}
}

// A donor is a name where the card keeps account of it; otherwise its words are none.
func TestDonors(t *testing.T) {
	const parts = "-- 2026-04-11.md --\n---\nstage: body\nparts:\n  wing-left: arrived left wing; donor lark-17; worth 20\n  wing-right: arrived right wing; donor same model, 2016\n---\n"
	e := start(t, parts+"-- build.md --\n"+strings.TrimSuffix(card, "---\n")+"donors:\n  lark-17: 580.00 hatchback; worth 400\n---\n", "")
	e.open("2026-04-11.md")
	var list []location
	e.ask("textDocument/definition", e.at("2026-04-11.md", "donor lark|-17"), &list)
	want(t, "where a donor is kept", e.places(list), "build.md:10 lark-17")
	for _, at := range []string{"same mo|del", "20|16"} {
		if e.ask("textDocument/definition", e.at("2026-04-11.md", at), &list); len(list) > 0 {
			t.Errorf("at %q it finds %q", at, e.places(list))
		}
	}
}

func TestOutline(t *testing.T) {
	e := start(t, beam, "")
	e.open("2026-04-11.md")
	doc := map[string]any{"textDocument": map[string]any{"uri": e.uri("2026-04-11.md")}}
	var symbols []documentSymbol
	e.ask("textDocument/documentSymbol", doc, &symbols)
	var got []string
	for _, s := range symbols {
		got = append(got, s.Name)
		for _, c := range s.Children {
			got = append(got, "  "+c.Name)
		}
	}
	want(t, "symbols", got, "stage", "parts", "  rear-beam", "cost", "  138.00 beam; for rear-beam; from Tidewell Dismantlers", "beam-in", "exhaust-hanger", "sweep the floor", "scan abs")

	var folds []foldingRange
	e.ask("textDocument/foldingRange", doc, &folds)
	got = nil
	for _, f := range folds {
		got = append(got, fmt.Sprint(f.StartLine+1, "-", f.EndLine+1))
	}
	slices.Sort(got)
	want(t, "folds", got, "1-7", "14-18", "16-18", "3-4", "5-6", "8-18")

	var tokens semanticTokens
	e.ask("textDocument/semanticTokens/full", doc, &tokens)
	coloured := map[string]string{}
	var at position
	for d := tokens.Data; len(d) >= 5; d = d[5:] {
		if at.Line += d[0]; d[0] > 0 {
			at.Character = 0
		}
		at.Character += d[1]
		coloured[e.in("2026-04-11.md", textRange{at, position{at.Line, at.Character + d[2]}})] = tokenTypes[d[3]]
	}
	for word, kind := range map[string]string{"stage": "property", "needed": "enumMember", "138.00": "number", "for": "keyword", "rear-beam": "variable", "# Out": "class", "C0035": "enumMember"} {
		if coloured[word] != kind {
			t.Errorf("%q is coloured as %q, want %q", word, coloured[word], kind)
		}
	}

	var found []workspaceSymbol
	e.ask("workspace/symbol", map[string]any{"query": "HANG"}, &found)
	if len(found) != 1 || found[0].Name != "exhaust-hanger" || found[0].Location.Range.Start.Line != 10 {
		t.Errorf("what is found: %v", found)
	}
}
