package render

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/render/tongue"
)

// seenWords are what people read of a page or have read to them, piece by piece, with the
// language that each piece is said to be in. Code and ids are no language.
func seenWords(t *testing.T, f place.File, each func(words, lang string)) {
	var walk func(n *html.Node, lang string)
	walk = func(n *html.Node, lang string) {
		if n.Type == html.ElementNode {
			if own, ok := attr(n, "lang"); ok {
				lang = own
			}
			if n.Data == "script" || n.Data == "style" || n.Data == "code" || n.Data == "pre" {
				return
			}
			for _, name := range []string{"aria-label", "alt", "title"} {
				if words, ok := attr(n, name); ok {
					each(words, lang)
				}
			}
			name, _ := attr(n, "name")
			if property, _ := attr(n, "property"); name == "description" || property == "og:description" || property == "og:title" {
				words, _ := attr(n, "content")
				each(words, lang)
			}
		}
		if n.Type == html.TextNode && strings.TrimSpace(n.Data) != "" {
			each(strings.TrimSpace(n.Data), lang)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, lang)
		}
	}
	walk(parse(t, f), "")
}

// A language in which every phrase stands in brackets: what stands outside of them was not
// said by the table, and must be of the notes.
func TestNothingStaysEnglish(t *testing.T) {
	const code = "eo" // any that there is no table of
	var table strings.Builder
	for key := range tongue.Languages["de"].Phrases() {
		switch key {
		case "MONTHS", "SHORT MONTHS", "WEEKDAYS":
			fmt.Fprintf(&table, "%s =%s\n", key, strings.Repeat(" ⟦m⟧", 12))
		case "1,234.5":
			fmt.Fprintf(&table, "%s = 1'234;5\n", key)
		default:
			fmt.Fprintf(&table, "%s = ⟦%s⟧\n", key, key)
		}
	}
	tongue.Languages[code] = tongue.Read(code, table.String())
	defer delete(tongue.Languages, code)

	typed := map[string]bool{"guidecoat": true, "test": true, "min": true, "nbsp": true}
	word := regexp.MustCompile(`\pL{3,}`)
	err := fs.WalkDir(example(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".md" {
			return err
		}
		data, err := fs.ReadFile(example(), path)
		for _, w := range word.FindAllString(path+" "+string(data), -1) {
			typed[strings.ToLower(w)] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	ours := map[string]bool{"guidecoat": true, "test": true, "bar": true} // names of ours, and a unit
	id := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)+$`)
	brackets := regexp.MustCompile(`⟦[^⟦⟧]*⟧`)
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string]bool{}
	for _, asOf := range []measure.Date{0, day0(t, "2026-06-01")} {
		st := state.At(b, asOf, today)
		for _, v := range []*view.View{view.Of(st, view.ForPublic), view.ForHandover(st, view.ForBuyer, nil)} {
			v.Language = code
			for _, f := range siteOfView(t, example(), b, v) {
				if !isPage(f) {
					continue
				}
				kinds[filepath.Dir(f.Path)+strings.TrimRight(filepath.Base(f.Path), "0123456789-.html")] = true
				seenWords(t, f, func(words, lang string) {
					if own := word.FindString(words); lang == code && !strings.Contains(words, "⟦") && own != "" && !ours[own] && !id.MatchString(words) {
						t.Errorf("%s %s: %q is of the notes, and is said to be in the language of the page", v.Audience, f.Path, words)
					}
					for rest := ""; rest != words; words = brackets.ReplaceAllString(words, " ") {
						rest = words
					}
					if strings.HasSuffix(words, "…") { // shortened within a phrase
						words, _, _ = strings.Cut(words, "⟦")
					}
					for _, w := range word.FindAllString(words, -1) {
						if !typed[strings.ToLower(w)] {
							t.Errorf("%s %s: %q of %q is said by no table", v.Audience, f.Path, w, words)
						}
					}
				})
			}
		}
	}
	if len(kinds) < 12 {
		t.Errorf("only these pages were looked at: %v", slices.Sorted(maps.Keys(kinds)))
	}
}

// The small build in each language, as it is read: what a translator may read over.
func TestGoldenLanguages(t *testing.T) {
	fsys := os.DirFS("testdata/sites/small/in")
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	english := map[string][]byte{}
	for _, code := range journal.Languages {
		v := view.ForHandover(state.At(b, measure.NewDate(2026, 4, 1), today), view.ForBuyer, nil)
		v.Language = code
		var out bytes.Buffer
		for _, f := range siteOfView(t, fsys, b, v) {
			if isPage(f) {
				fmt.Fprintf(&out, "== %s\n", f.Path)
				seenWords(t, f, func(words, lang string) {
					fmt.Fprintf(&out, "%s: %s\n", lang, strings.Join(strings.Fields(words), " "))
				})
			} else if strings.HasSuffix(f.Path, ".json") || strings.HasSuffix(f.Path, ".csv") {
				if code == tongue.English {
					english[f.Path] = f.Data
				} else if !bytes.Equal(f.Data, english[f.Path]) {
					t.Errorf("%s: %s is for programs, and differs from the English one", code, f.Path)
				}
			}
		}
		if code == tongue.English {
			continue
		}
		name := filepath.Join("testdata", "languages", code+".txt")
		if *update {
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, out.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if d := firstDifference(string(want), out.String()); d != "" {
			t.Errorf("%s: %s\nIf it is as it should be, run go test ./render -update", name, d)
		}
	}
}
