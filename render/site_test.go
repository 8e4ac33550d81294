package render

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path"
	"runtime"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

var today = measure.NewDate(2026, 11, 25)

// example is the build that the project shows itself by.
func example() fs.FS { return os.DirFS("../example-build") }

func theme(t testing.TB) *themes.Theme {
	t.Helper()
	th, err := themes.Load(themes.Default, nil)
	if err != nil {
		t.Fatal(err)
	}
	return th
}

// made are the sites of the example so far, which no test changes: they are looked at again
// and again.
var (
	made   = map[string]any{}
	making sync.Mutex
)

// once makes something of the example where no test has made it yet.
func once[T any](what string, make func() T) T {
	making.Lock()
	defer making.Unlock()
	if made[what] == nil {
		made[what] = make()
	}
	return made[what].(T)
}

// siteOf makes the site of the build in fsys.
func siteOf(t testing.TB, fsys fs.FS, to view.Audience, asOf measure.Date) []place.File {
	t.Helper()
	if fsys == example() {
		return once(fmt.Sprint("site ", to, asOf), func() []place.File { return newSiteOf(t, fsys, to, asOf) })
	}
	return newSiteOf(t, fsys, to, asOf)
}

func newSiteOf(t testing.TB, fsys fs.FS, to view.Audience, asOf measure.Date) []place.File {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	return siteOfView(t, fsys, b, view.Of(state.At(b, asOf, today), to))
}

func siteOfView(t testing.TB, fsys fs.FS, b *journal.Build, v *view.View) []place.File {
	t.Helper()
	return siteIn(t, theme(t), fsys, b, v)
}

func siteIn(t testing.TB, th *themes.Theme, fsys fs.FS, b *journal.Build, v *view.View) []place.File {
	t.Helper()
	o := Options{Theme: th, Version: "test", Read: func(p string) ([]byte, error) { return fs.ReadFile(fsys, p) }, Store: pictures}
	for _, s := range b.Sessions {
		o.Notes = append(o.Notes, RawNote{File: s.Note.File})
	}
	if len(o.Notes) > 0 {
		span := o.Notes[0].File.Span(0, min(3, len(o.Notes[0].File.Data)))
		told := []problem.Problem{{Check: "test", Severity: problem.Warning, Span: span, Message: "said of " + span.Text(), Help: "No help."}}
		o.Notes[0].Told = func() Told { return Told{Problems: told} }
	}
	files, err := allOf(Site(v, o))
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// A shelf is a store in memory.
type shelf struct{ files sync.Map }

func (s *shelf) Get(name string) ([]byte, bool) {
	data, ok := s.files.Load(name)
	if !ok {
		return nil, false
	}
	return data.([]byte), true
}

func (s *shelf) Put(name string, data []byte) { s.files.Store(name, data) }

// pictures are those that were made so far, which saves working on them for every test.
var pictures = &shelf{}

// exampleSites are the sites of the example for everybody, and one of the workshop's
// as it stood while much was outstanding; each in every theme.
func exampleSites(t testing.TB) map[string][]place.File {
	t.Helper()
	return once("all sites", func() map[string][]place.File { return newExampleSites(t) })
}

func newExampleSites(t testing.TB) map[string][]place.File {
	t.Helper()
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	june := state.At(b, measure.NewDate(2026, 6, 1), today)
	now := state.At(b, 0, today)
	views := map[string]*view.View{"workshop in June": view.Of(june, view.ForWorkshop), "buyer's pack": view.ForHandover(now, view.ForBuyer, nil), "buyer's pack in June": view.ForHandover(june, view.ForBuyer, nil)}
	for _, to := range view.Audiences() {
		views[string(to)] = view.Of(now, to)
	}
	sites := map[string][]place.File{}
	for _, name := range themes.Names() {
		th, err := themes.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		for of, v := range views {
			sites[of+", "+name] = siteIn(t, th, example(), b, v)
		}
		// The same build twice, since the example is no garage.
		two := Garage{Copy: view.CopyFor(view.ForPublic), Name: "The lean-to", Builds: []Build{{Path: "halden", View: view.Of(now, view.ForPublic)}, {Path: "other", View: view.Of(june, view.ForPublic)}}}
		files, err := allOf(GarageSite(two, Options{Theme: th, Version: "test", Store: pictures, Read: func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }}))
		if err != nil {
			t.Fatal(err)
		}
		sites["public garage, "+name] = files
	}
	return sites
}

func parse(t testing.TB, f place.File) *html.Node {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(f.Data))
	if err != nil {
		t.Fatalf("%s: %v", f.Path, err)
	}
	return doc
}

func isPage(f place.File) bool { return strings.HasSuffix(f.Path, ".html") }

func attr(n *html.Node, name string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val, true
		}
	}
	return "", false
}

// Every page of every audience is made from the example somewhere.
func TestExampleMakesEveryPage(t *testing.T) {
	made := map[string]bool{}
	for _, files := range exampleSites(t) {
		for _, f := range files {
			for _, p := range pageTable {
				made[p.name] = made[p.name] || bytes.Contains(f.Data, []byte(`<body class="on-`+p.name+`">`))
			}
		}
	}
	for _, p := range pageTable {
		if !made[p.name] {
			t.Errorf("no page %s", p.name)
		}
	}
}

func TestSameBytes(t *testing.T) {
	pictures.files.Clear()
	first := siteOf(t, example(), view.ForWorkshop, 0)
	pictures.files.Clear()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	second := siteOf(t, example(), view.ForWorkshop, 0)
	if len(first) != len(second) {
		t.Fatalf("%d files, then %d", len(first), len(second))
	}
	for i := range first {
		if first[i].Path != second[i].Path || !bytes.Equal(first[i].Data, second[i].Data) {
			t.Errorf("%s and %s differ", first[i].Path, second[i].Path)
		}
	}
}

// Whatever a page leads to is there, and so is the place in it.
func TestLinks(t *testing.T) {
	for name, files := range exampleSites(t) {
		for _, complaint := range brokenLinks(t, files) {
			t.Errorf("%s: %s", name, complaint)
		}
	}
}

// brokenLinks tells of links that lead nowhere, ids that are there twice, and files
// that nothing leads to.
func brokenLinks(t testing.TB, files []place.File) []string {
	var list []string
	complain := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	ids := map[string]map[string]bool{}
	docs := map[string]*html.Node{}
	reached := map[string]bool{"index.html": true, "style.css": true}
	for _, f := range files {
		ids[f.Path] = map[string]bool{}
		if !isPage(f) {
			continue
		}
		docs[f.Path] = parse(t, f)
		for n := range docs[f.Path].Descendants() {
			if id, ok := attr(n, "id"); ok {
				if ids[f.Path][id] {
					complain("%s: the id %q is there twice", f.Path, id)
				}
				ids[f.Path][id] = true
			}
		}
	}
	for at, doc := range docs {
		for n := range doc.Descendants() {
			for _, target := range targets(n) {
				file, fragment, _ := strings.Cut(target, "#")
				to := at
				if file != "" {
					to = path.Join(path.Dir(at), file)
					reached[to] = reached[to] || to != at
				}
				switch {
				case ids[to] == nil:
					complain("%s leads to %q, which is not there", at, target)
				case fragment != "" && !ids[to][fragment]:
					complain("%s leads to %q, but there is no such place", at, target)
				}
			}
		}
	}
	for _, f := range files {
		if !reached[f.Path] {
			complain("nothing leads to %s", f.Path)
		}
	}
	return list
}

// targets are the addresses within the site that an element names.
func targets(n *html.Node) []string {
	var list []string
	for _, a := range n.Attr {
		switch a.Key {
		case "href", "src":
			if !strings.Contains(a.Val, ":") {
				list = append(list, a.Val)
			}
		case "srcset":
			for c := range strings.SplitSeq(a.Val, ",") {
				list = append(list, strings.Fields(c)[0])
			}
		case "aria-labelledby":
			list = append(list, "#"+a.Val)
		}
	}
	return list
}

// What holds of every page: one h1, one of each landmark, a language, no script,
// no style of its own, no request elsewhere, pictures with words and a size.
func TestEveryPage(t *testing.T) {
	for name, files := range exampleSites(t) {
		for _, f := range files {
			if !isPage(f) {
				continue
			}
			for _, complaint := range complaints(parse(t, f)) {
				t.Errorf("%s: %s: %s", name, f.Path, complaint)
			}
			noIndex := bytes.Contains(f.Data, []byte(`<meta name="robots" content="noindex`))
			if noIndex == strings.HasPrefix(name, "public") {
				t.Errorf("%s: %s: noindex is %v", name, f.Path, noIndex)
			}
		}
	}
}

func complaints(doc *html.Node) []string {
	var list []string
	seen := map[string]int{}
	last := 0
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		seen[n.Data]++
		for _, a := range n.Attr {
			if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
				list = append(list, fmt.Sprintf("<%s> has an attribute %s", n.Data, a.Key))
			}
		}
		switch n.Data {
		case "script":
			if kind, _ := attr(n, "type"); kind != "application/ld+json" { // data, which is never run
				list = append(list, "<script> is there")
			}
		case "style", "iframe", "object", "form", "base":
			list = append(list, "<"+n.Data+"> is there")
		case "h1", "h2", "h3", "h4", "h5", "h6":
			level := int(n.Data[1] - '0')
			if level > last+1 {
				list = append(list, fmt.Sprintf("<%s> after <h%d>", n.Data, last))
			}
			last = level
		case "img":
			for _, a := range []string{"src", "alt", "width", "height", "loading"} {
				if v, _ := attr(n, a); v == "" {
					list = append(list, "a picture without "+a)
				}
			}
		case "html":
			if lang, _ := attr(n, "lang"); lang != "en-GB" {
				list = append(list, "the language is "+lang)
			}
		case "link":
			if href, _ := attr(n, "href"); strings.Contains(href, ":") {
				list = append(list, "it loads "+href)
			}
		}
	}
	for element, want := range map[string]int{"h1": 1, "main": 1, "footer": 1, "title": 1} {
		if seen[element] != want {
			list = append(list, fmt.Sprintf("<%s> is there %d times", element, seen[element]))
		}
	}
	return list
}

// allOf takes all files of a site at once.
func allOf(files Files, err error) ([]place.File, error) {
	if err != nil {
		return nil, err
	}
	return collect(files)
}
