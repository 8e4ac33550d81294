package render

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// evil stands in every field that a builder can write. Nothing of it may become
// markup. It holds no semicolon, which would end it.
const evil = `<xpwn onclick="x">'"&amp</xpwn><script>x()</script>{{.}}`

func hostileBuild(t testing.TB) fstest.MapFS {
	t.Helper()
	var pic bytes.Buffer
	if err := png.Encode(&pic, image.NewGray(image.Rect(0, 0, 4, 3))); err != nil {
		t.Fatal(err)
	}
	card := `---
build: EVIL
currency: GBP
vehicle:
  make: EVIL
  registration: EVIL
  EVIL: EVIL
resale: 1000 2000 3000
fees:
  EVIL: 75 to 500, 12% above
pace: 6h a week EVIL
holding:
  EVIL: 1 a week EVIL
offers:
  EVIL: 500 EVIL; from EVIL
due checks:
  evil-test: after brakes; because EVIL
stages:
  st EVIL: about EVIL; budget 1 2 3; system brakes
damage:
  side EVIL: EVIL; system structure; fired curtain-left; photo photos/a.png; photo EVIL
fasteners:
  beam-bolt: 60 Nm EVIL; of rear-beam
papers:
  EVIL: EVIL; until 2026-05-02
donors:
  lark-17: 5 EVIL; category EVIL; from EVIL; receipt EVIL
public:
  money: lines
  suppliers: yes
  registration: yes
---
# EVIL

EVIL [EVIL](javascript:alert(1)) [EVIL](data:text/html,x) ![EVIL](photos/a.png "EVIL")
`
	note := `---
date: 2026-04-11
title: EVIL
stage: st EVIL
odometer: 91252 mi
time:
  - 3h EVIL
cost:
  - 12.00 EVIL; for rear-beam; from EVIL; receipt EVIL; as parts
  - 9.00 EVIL; as tools; from EVIL
credit:
  - 2.00 EVIL; from EVIL; receipt EVIL
parts:
  rear-beam: needed EVIL; from EVIL; number EVIL; donor EVIL; estimate 1 2 3; photo photos/a.png; photo EVIL
  lamp-left: arrived EVIL; donor lark-17; worth 5
  horn: needed EVIL
quotes:
  horn: 5 EVIL; from EVIL
checks:
  brake-feel: failed EVIL; by EVIL; receipt EVIL; photo photos/a.png; photo EVIL
inspection: failed EVIL; by EVIL; receipt EVIL; photo photos/a.png; photo EVIL
found:
  rear-pads: dangerous 1.1.13 EVIL
fasteners:
  beam-bolt: 60 Nm EVIL; by EVIL
readings:
  disc-left: 8 mm EVIL; min 9 mm
papers:
  permit EVIL: EVIL; until 2026-05-02
remaining:
  st EVIL: 1 2 3 EVIL
---
# EVIL

EVIL

![EVIL](photos/a.png)

| EVIL | b |
|---|---|
| EVIL | ` + "`EVIL`" + ` |

- [ ] temporary ex-hanger: EVIL; waits for rear-beam; photo photos/a.png; photo EVIL
- [ ] EVIL

` + "```scan abs\nC0035 EVIL\n```\n\n```go\nEVIL\n```\n"
	later := `---
date: 2026-05-01
title: EVIL
sold: 2000 EVIL; to EVIL
sale:
  - deposit 5 EVIL; from EVIL
  - part exchange 6 EVIL; into EVIL
---
EVIL

- [x] ex-hanger: EVIL
`
	fill := func(s string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(strings.ReplaceAll(s, "EVIL", evil))}
	}
	return fstest.MapFS{"build.md": fill(card), "2026-04-11.md": fill(note), "2026-05-01.md": fill(later),
		"page.md": fill("---\npage: EVIL\n---\n# EVIL\n\nEVIL\n"), "photos/a.png": &fstest.MapFile{Data: pic.Bytes()}}
}

func TestNotesNeverBecomeMarkup(t *testing.T) {
	fsys := hostileBuild(t)
	if b, err := journal.ReadBuild(fsys, "."); err != nil || b.LinesLeftOut > 0 {
		t.Fatalf("%v, %v: the lines must be read to be shown", err, b.Faults)
	}
	for _, to := range view.Audiences() {
		for _, f := range siteOf(t, fsys, to, 0) {
			if !isPage(f) {
				continue
			}
			shown := false
			doc := parse(t, f)
			for n := range doc.Descendants() {
				switch n.Type {
				case html.ElementNode:
					if n.Data == "xpwn" {
						t.Fatalf("%s: %s: the notes have become markup", to, f.Path)
					}
					for _, a := range n.Attr {
						if (a.Key == "href" || a.Key == "src") && (strings.HasPrefix(a.Val, "javascript:") || strings.HasPrefix(a.Val, "data:")) {
							t.Errorf("%s: %s: an address %q", to, f.Path, a.Val)
						}
					}
				case html.TextNode:
					shown = shown || strings.Contains(n.Data, "<xpwn")
				case html.CommentNode:
					t.Errorf("%s: %s: a comment", to, f.Path)
				}
			}
			for _, complaint := range complaints(doc) {
				t.Errorf("%s: %s: %s", to, f.Path, complaint)
			}
			if !shown && f.Path != "notes/index.html" {
				t.Errorf("%s: %s: it shows nothing of the notes", to, f.Path)
			}
		}
	}
}

// A link to another note leads to its page, or nowhere; notes are never copied.
func TestNotesAreNotFiles(t *testing.T) {
	fsys := fstest.MapFS{
		"build.md":      {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n[the first](2026-04-11.md), [private](2026-04-12.md), [the card](build.md), [other](other.md), [list](list.pdf)\n")},
		"2026-04-11.md": {Data: []byte("---\ntitle: first\n---\nx\n")},
		"2026-04-12.md": {Data: []byte("---\ntitle: hidden\nprivate: yes\n---\nsecret\n")},
		"other.md":      {Data: []byte("secret\n")},
		"list.pdf":      {Data: []byte("%PDF-1.7")},
	}
	files := withoutMachines(siteOf(t, fsys, view.ForPublic, 0))
	var paths []string
	for _, f := range files {
		paths = append(paths, f.Path)
		if bytes.Contains(f.Data, []byte("secret")) || bytes.Contains(f.Data, []byte("hidden")) {
			t.Errorf("%s tells what is private", f.Path)
		}
	}
	if got, want := fmt.Sprint(paths), "[style.css icon.svg index.html sessions/index.html sessions/2026-04-11.html files/list.pdf]"; got != want {
		t.Errorf("files %v, want %v", got, want)
	}
	for _, want := range []string{`href="sessions/2026-04-11.html"`, `href="index.html"`, `href="files/list.pdf"`} {
		if !bytes.Contains(files[2].Data, []byte(want)) {
			t.Errorf("the front page has no %s", want)
		}
	}
}

// What a camera writes into files that cannot be cleaned is not published: a page
// shows their words, and leads nowhere.
func TestMuteFilesAreLeftOut(t *testing.T) {
	for _, name := range []string{"a.heic", "a.MOV", "a.jpg", "a.svg", "a.dng"} {
		fsys := fstest.MapFS{
			"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n![the axle](" + name + ")\n\n[the film](" + name + ")\n")},
			name:       {Data: []byte("zqsecret")},
		}
		for _, f := range siteOf(t, fsys, view.ForWorkshop, 0) {
			if bytes.Contains(f.Data, []byte("zqsecret")) || strings.HasPrefix(f.Path, "files/") || strings.HasPrefix(f.Path, "pictures/") {
				t.Errorf("%s: %s is published", name, f.Path)
			}
			if f.Path == "index.html" && (!bytes.Contains(f.Data, []byte("the axle")) || !bytes.Contains(f.Data, []byte("the film"))) {
				t.Errorf("%s: the words are gone", name)
			}
		}
	}
}

// The hostile build has evil words wherever the grammar lets a builder write any.
func TestHostileBuildHoldsEveryField(t *testing.T) {
	b, err := journal.ReadBuild(hostileBuild(t), ".")
	if err != nil {
		t.Fatal(err)
	}
	written := map[string]bool{} // KEY, KEY name and KEY clause of those that hold it
	line := func(l *note.Line) {
		holds := func(what, text string) {
			if strings.Contains(text, "<xpwn") {
				written[l.Kind.Key+what] = true
			}
		}
		holds("", l.Words().S)
		holds(" name", l.Name)
		if l.Kind.Head == nil && len(l.Kind.Clauses) == 0 {
			holds("", l.Text.S)
		}
		for _, c := range l.Clauses {
			holds(" "+c.Word, c.Arg.S)
		}
	}
	notes := []*note.Note{b.Card.Note}
	for _, s := range b.Sessions {
		notes = append(notes, s.Note)
	}
	for _, p := range b.Pages {
		notes = append(notes, p.Note)
	}
	for _, n := range notes {
		for _, l := range n.Lines {
			line(l)
		}
		for _, it := range n.Items {
			line(it.Line)
		}
	}
	var missing []string
	for _, k := range slices.Concat(note.Session, note.Card, note.Page, []*note.Kind{note.Snag}) {
		need := func(what string) {
			if !written[k.Key+what] {
				missing = append(missing, k.Key+what)
			}
		}
		if k.Words || k.Head == nil && k.Shape == note.One && len(k.Clauses) == 0 {
			need("")
		}
		if k.Shape == note.Named && k.Name == nil && k.Key != "public" { // whose names are settings
			need(" name")
		}
		for _, c := range k.Clauses {
			if v := c.Value; v != nil && v.Flaw == "" && v.Near == nil && c.Word != "stage" { // a stage must be one of the card's
				need(" " + c.Word)
			}
		}
	}
	if len(missing) > 0 {
		t.Errorf("nothing evil is written as %s", strings.Join(missing, ", "))
	}
}

// A file that becomes another between being looked at and being copied is not copied.
func TestFileChangesWhileTheSiteIsMade(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n[the list](list.pdf)\n")}, "list.pdf": {Data: []byte("%PDF-1.7")}}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	for last, changed := range map[string]bool{"%PDF-1.7 more": false, "<script>": true, "GIF89a\x01\x00\x01\x00\x00\x00\x00": true} {
		reads := []string{"%PDF-1.7", last}
		_, err := allOf(Site(view.Of(state.At(b, 0, today), view.ForPublic), Options{Theme: theme(t), Read: func(string) ([]byte, error) {
			data := reads[0]
			reads = reads[1:]
			return []byte(data), nil
		}}))
		if (err != nil) != changed {
			t.Errorf("%q: %v", last, err)
		}
	}
}
