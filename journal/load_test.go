package journal_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/marker"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// pathsOf lists the paths of sessions, then of pages behind a bar.
func pathsOf(b *journal.Build) string {
	var list []string
	for _, s := range b.Sessions {
		list = append(list, s.Path)
	}
	list = append(list, "|")
	for _, p := range b.Pages {
		list = append(list, p.Path)
	}
	return strings.TrimSpace(strings.Join(list, " "))
}

// Sessions come by date, then by path, element by element, without .md.
func TestSessionOrder(t *testing.T) {
	b := trial.Compile(t, `
-- 2026-04-12.md --
-- b/2026-04-11.md --
-- a/2026-04-11 z.md --
-- 2026-04-11.md --
-- 2026-04-11 a.md --
-- 2026-04-11/2026-04-11.md --
-- 2026-04-11-b.md --
-- a-b/2026-04-11.md --
-- notes.md --
---
date: 2026-04-10
---
-- a/b/c/2026-04-11.md --
`)
	// By bytes "2026-04-11 a.md" < "2026-04-11-b.md" < "2026-04-11.md"; without .md
	// the shortest comes first. "a/…" comes before "a-b/…", since "a" < "a-b".
	want := "notes.md 2026-04-11.md 2026-04-11/2026-04-11.md 2026-04-11 a.md 2026-04-11-b.md a/2026-04-11 z.md a/b/c/2026-04-11.md a-b/2026-04-11.md b/2026-04-11.md 2026-04-12.md |"
	trial.WantEqual(t, "order", pathsOf(b), want)
	trial.WantFaults(t, "order", b)
	trial.WantEqual(t, "name", b.Sessions[2].Name(b), "2026-04-11/2026-04-11")
}

func TestWhichFilesAreRead(t *testing.T) {
	b := trial.Compile(t, `
-- 2026-04-11.md --
-- 2026-04-11 axle.md --
-- 2026-04-111.md --
-- 2026-04-11.txt --
-- 2026-04-11.MD --
-- ideas.Md --
Paint the calipers?
-- axle.markdown --
---
date: 2026-04-13
---
-- 2026-04-11.md.txt --
-- notes/2026-04-12 axle.md --
-- by-key.md --
---
date: 2026-04-13
---
-- page.md --
---
page: How it was painted
---
-- secret page.md --
---
page: Only for me
private: yes
---
-- README.md --
# Nobody's note
-- other.md --
---
layout: post
---
-- not closed.md --
---
Nobody's note either, it begins with a rule
-- .hidden.md --
---
date: 2026-04-14
---
-- .git/2026-04-15.md --
-- photos/a.jpg --
-- site/.guidecoat --
`+publishedMarker+`-- site/2026-04-16.md --
-- site/a.jpg --
-- sites/2026-04-17.md --
-- sites/.guidecoat --
something else
`)
	want := "2026-04-11.md 2026-04-11 axle.md notes/2026-04-12 axle.md by-key.md sites/2026-04-17.md | page.md secret page.md"
	trial.WantEqual(t, "files", pathsOf(b), want)
	trial.WantFaults(t, "files", b, "other-ending 2026-04-11.MD:1:1 ||", "other-ending 2026-04-11.md.txt:1:1 ||", "other-ending axle.markdown:1:1 ||", "note-in-site site/2026-04-16.md:1:1 ||")
	var alone []string
	for _, f := range b.Faults {
		if f.Flaw == journal.LeftAlone {
			alone = append(alone, trial.FaultLine(f))
		}
	}
	trial.WantList(t, "left alone, said once each", alone, []string{"left-alone 2026-04-11.txt:1:1 ||", "left-alone ideas.Md:1:1 ||", "left-alone 2026-04-111.md:1:1 ||", "left-alone README.md:1:1 ||", "left-alone not closed.md:1:1 ||", "left-alone other.md:1:1 ||"})
	if !b.Files["photos/a.jpg"] || b.Files["site/2026-04-16.md"] || b.Files["site/a.jpg"] || b.Files[".hidden.md"] {
		t.Errorf("files: %v", b.Files)
	}
	if b.Pages[0].Title != "How it was painted" || b.Pages[0].Private || !b.Pages[1].Private {
		t.Errorf("pages: %+v, %+v", b.Pages[0], b.Pages[1])
	}
}

var publishedMarker = marker.Site{Audience: "public", Build: "x"}.Text()

// No marker hides a note: where it proves nothing the notes beside it are read, and
// where it is whole each of them is an error.
func TestMarkersHideNoNote(t *testing.T) {
	for text, whole := range map[string]bool{
		publishedMarker:               true,
		"":                            false,
		"guidecoat site for public\n": false,
		"guidecoat site for public\nindex.html\n":                                                                false,
		"guidecoat site for public\r\n2026-04-16.md\r\n":                                                         false,
		publishedMarker[:len(publishedMarker)-2]:                                                                 false,
		strings.ReplaceAll(publishedMarker, "public", "buyers"):                                                  false,
		marker.Site{Audience: "public", Build: "x", Files: map[string]marker.Digest{"2026-04-16.md": {}}}.Text(): false,
	} {
		notes := "-- notes/2026-04-16.md --\n-- notes/deep/2026-04-17.md --\n-- notes/.guidecoat --\n" + text
		b := trial.Compile(t, notes)
		if !whole {
			trial.WantFaults(t, text, b)
			trial.WantEqual(t, text, pathsOf(b), "notes/2026-04-16.md notes/deep/2026-04-17.md |")
			continue
		}
		lost := []string{"note-in-site notes/2026-04-16.md:1:1 ||", "note-in-site notes/deep/2026-04-17.md:1:1 ||"}
		trial.WantFaults(t, "whole", b, lost...)
		trial.WantFaults(t, "the card alone", journal.ReadCard(trial.Files(notes), "."), lost...)

		// A garage says it of what lies beside its builds, and does not lose a build.
		g, err := journal.ReadGarage(trial.Files("-- garage.md --\n---\ngarage: x\ncurrency: GBP\n---\n-- notes/van/build.md --\n" + "---\nbuild: x\ncurrency: GBP\n---\n" + notes))
		if err != nil || len(g.Faults) != 3 || g.Faults[2].Word != "notes/van/build.md" {
			t.Errorf("%v %v", g.Faults, err)
		}
		g, err = journal.ReadGarage(trial.Files("-- garage.md --\n---\ngarage: x\ncurrency: GBP\n---\n-- notes/build.md --\n" + "---\nbuild: x\ncurrency: GBP\n---\n" + notes))
		if err != nil || len(g.Faults) != 3 || len(g.Builds) != 1 || len(g.Builds[0].Sessions) != 2 {
			t.Errorf("%v %v", g.Faults, err)
		}
	}
}

// A folder with its own build.md belongs to that build alone.
func TestBuildsInsideBuilds(t *testing.T) {
	fsys := trial.Files(`
-- garage.md --
---
garage: Lowfield
currency: GBP
---
-- halden/build.md --
---
build: Halden
currency: GBP
---
-- halden/2026-04-11.md --
-- halden/donor/build.md --
---
build: Donor
currency: EUR
---
-- halden/donor/2026-04-12.md --
-- halden/donor/notes/2026-04-13.md --
-- halden/notes/2026-04-14 axle.md --
`)
	trial.WantEqual(t, "outer", pathsOf(trial.CompileFS(t, fsys, "halden")), "halden/2026-04-11.md halden/notes/2026-04-14 axle.md |")
	inner := trial.CompileFS(t, fsys, "halden/donor")
	trial.WantEqual(t, "inner", pathsOf(inner), "halden/donor/2026-04-12.md halden/donor/notes/2026-04-13.md |")
	trial.WantEqual(t, "name in its build", inner.Sessions[1].Name(inner), "notes/2026-04-13")
	trial.WantEqual(t, "name and currency", inner.Card.Name+inner.Card.Currency.Code, "DonorEUR")
}

func TestDates(t *testing.T) {
	for _, c := range []struct {
		name, file, front string
		date              string // "" where the note is left out
		left              int
		faults            []string
	}{
		{name: "by name", file: "2026-04-11.md", front: "title: x", date: "2026-04-11"},
		{name: "by key", file: "axle.md", front: "date: 2026-04-11", date: "2026-04-11"},
		{name: "by both", file: "2026-04-11 axle.md", front: "date: 2026-04-11", date: "2026-04-11"},
		{name: "by both, in quotes", file: "2026-04-11 axle.md", front: "date: \"2026-04-11\"", date: "2026-04-11"},
		{name: "they differ", file: "2026-04-11.md", front: "time: 3h\ndate: 2026-04-12", left: 2, faults: []string{"date-differs 2026-04-11.md:3:7 |2026-04-12|"}},
		{name: "a bad key", file: "2026-04-11.md", front: "date: 11.4.2026\ntime: 3h\ncost: 5", left: 3, faults: []string{"bad-date 2026-04-11.md:2:7 |11.4.2026|"}},
		{name: "a bad key alone", file: "x.md", front: "date: 2026-02-30\ntime:\n  - 3h\n  - 2h", left: 3, faults: []string{"bad-date x.md:2:15 |30|"}},
		{name: "an empty key", file: "x.md", front: "date:\ntime: 3h", left: 1, faults: []string{"empty-entry x.md:2:1 |date|"}},
		{name: "a name that is no day", file: "2026-02-30 x.md", front: "time: 3h", left: 1, faults: []string{"bad-date 2026-02-30 x.md:1:1 ||"}},
		{name: "none, but work", file: "x.md", front: "time: 3h", left: 1, faults: []string{"missing-date x.md:2:1 |time|"}},
		{name: "none and a bad line", file: "x.md", front: "time: 3h\ncost: x", left: 2, faults: []string{"missing-date x.md:2:1 |time|", "bad-amount x.md:3:7 |x|"}},
		{name: "a leap day", file: "2024-02-29.md", front: "time: 3h", date: "2024-02-29"},
		{name: "unclosed", file: "2026-04-11.md", front: "time: 3h\n\nwords", left: 1, faults: []string{"unclosed-front-matter 2026-04-11.md:1:1 |---|"}},
	} {
		archive := trial.Session(c.file, c.front, "")
		if c.name == "unclosed" {
			archive = strings.TrimSuffix(archive, "---\n\n")
		}
		b := trial.Compile(t, archive)
		got := ""
		if len(b.Sessions) > 0 {
			got = b.Sessions[0].Date.String()
		}
		trial.WantEqual(t, c.name+": date", got, c.date)
		trial.WantEqual(t, c.name+": lines left out", b.LinesLeftOut, c.left)
		trial.WantFaults(t, c.name, b, c.faults...)
	}
}

// A note that is left out takes its snags with it, and says how much is missing.
func TestLeftOutNoteCountsItsItems(t *testing.T) {
	b := trial.Compile(t, trial.Session("x.md", "date: 2026-13-01\ncost:\n  - 5\n  - bad", "- [ ] job a-b: x\n- [ ] y; mayor\n"))
	trial.WantEqual(t, "lines left out", b.LinesLeftOut, 5) // date, two costs, two items
	trial.WantEqual(t, "snags", len(b.Acts), 0)
}

func TestTitles(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "title: Given; as it is", "# Heading\n")+trial.Session("2026-04-02.md", "", "# The *first* heading\n")+trial.Session("2026-04-03.md", "", "no heading"))
	for i, want := range []string{"Given; as it is", "The first heading", "2026-04-03"} {
		trial.WantEqual(t, "title", b.Sessions[i].Title, want)
	}
}

func TestFilesThatCannotBeRead(t *testing.T) {
	if _, err := journal.ReadBuild(fstest.MapFS{}, "nowhere"); err == nil {
		t.Error("a folder that is not there can be read")
	}
	fsys := trial.Files("-- 2026-04-11.md --\n")
	fsys["2026-04-12.md/x.txt"] = &fstest.MapFile{}
	fsys["2026-04-13.md"] = &fstest.MapFile{Mode: fs.ModeSymlink, Data: []byte("gone.md")}
	b := trial.CompileFS(t, unreadable{fsys, "2026-04-11.md"}, ".")
	trial.WantFaults(t, "unreadable", b, "unreadable 2026-04-11.md:1:1 ||", "folder-as-note 2026-04-12.md:1:1 ||", "unreadable 2026-04-13.md:1:1 ||")
	for _, f := range b.Faults {
		if f.Flaw == journal.Unreadable && strings.Contains(f.Why, f.Span.File.Path) {
			t.Errorf("the reason repeats the path: %s", f.Why)
		}
	}
	b = trial.CompileFS(t, unreadable{trial.Files("-- 2026-04-11.md --\n---\ncost: 5\n---\n"), journal.CardName}, ".")
	if b.Card.Exists || len(b.Sessions) != 1 || !trial.HasFault(b, journal.Unreadable) || trial.HasFault(b, journal.MissingCurrency) {
		t.Errorf("without a card: %q", trial.FaultsOf(b))
	}
}

// unreadable is a file system in which one file cannot be opened.
type unreadable struct {
	fstest.MapFS
	name string
}

func (u unreadable) Open(name string) (fs.File, error) {
	if name == u.name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: errors.New("permission denied")}
	}
	return u.MapFS.Open(name)
}

// A pipe would be waited for for ever. It is told of and not opened, whatever its
// name and wherever a link to it stands.
func TestPipesAndDevices(t *testing.T) {
	fsys := trial.Files("-- 2026-04-11.md --\n---\ntime: 3h\n---\n[the wiring](wiring.pdf)\n")
	for name, mode := range map[string]fs.FileMode{"2026-04-12.md": fs.ModeNamedPipe, "wiring.pdf": fs.ModeSocket, "note.markdown": fs.ModeDevice | fs.ModeCharDevice} {
		fsys[name] = &fstest.MapFile{Mode: mode}
	}
	fsys["2026-04-13.md"] = &fstest.MapFile{Mode: fs.ModeSymlink, Data: []byte("2026-04-12.md")}
	fsys["copy.pdf"] = &fstest.MapFile{Mode: fs.ModeSymlink, Data: []byte("wiring.pdf")}
	b := trial.CompileFS(t, shut{fsys}, ".")
	trial.WantFaults(t, "pipes", b, "unreadable 2026-04-12.md:1:1 ||", "unreadable 2026-04-13.md:1:1 ||", "unreadable copy.pdf:1:1 ||", "unreadable note.markdown:1:1 ||", "unreadable wiring.pdf:1:1 ||")
	trial.WantEqual(t, "sessions", len(b.Sessions), 1)
	fsys = trial.Files("-- 2026-04-11.md --\n---\ntime: 3h\n---\n")
	fsys[journal.CardName].Mode = fs.ModeNamedPipe
	b = trial.CompileFS(t, shut{fsys}, ".")
	trial.WantFaults(t, "a card", b, "unreadable build.md:1:1 ||")
}

// shut is a file system in which nothing but files and folders can be opened.
type shut struct{ fstest.MapFS }

func (s shut) Open(name string) (fs.File, error) {
	if info, err := s.Stat(name); err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		panic("it waits for ever: " + name)
	}
	return s.MapFS.Open(name)
}

// Of a note without end, no more is read than shows that it is too large.
func TestEndlessNote(t *testing.T) {
	fsys := trial.Files("-- 2026-04-11.md --\n")
	b := trial.CompileFS(t, endless{fsys, "2026-04-11.md"}, ".")
	trial.WantFaults(t, "endless", b, "too-large 2026-04-11.md:1:1 ||")
}

// endless is a file system in which one file never ends.
type endless struct {
	fstest.MapFS
	name string
}

func (e endless) Open(name string) (fs.File, error) {
	f, err := e.MapFS.Open(name)
	if name == e.name {
		return &endlessFile{File: f}, err
	}
	return f, err
}

type endlessFile struct {
	fs.File
	given int
}

func (f *endlessFile) Read(data []byte) (int, error) {
	if f.given += len(data); f.given > 2*note.MaxSize {
		panic("it is read without end")
	}
	return len(data), nil
}

func TestOdometer(t *testing.T) {
	s := func(date, odometer string) string { return trial.Session(date+".md", "odometer: "+odometer, "") }
	b := trial.Compile(t, s("2026-04-01", "91252 mi")+trial.Session("2026-04-02.md", "", "")+s("2026-04-03", "91251 mi")+s("2026-04-04", "12 km; new cluster")+s("2026-04-05", "11 km")+s("2026-04-06", "oops"))
	trial.WantFaults(t, "backwards", b, "odometer-backwards 2026-04-03.md:2:11 |91251 mi|", "odometer-backwards 2026-04-05.md:2:11 |11 km|", "bad-distance 2026-04-06.md:2:11 |oops|")
	var running []string
	for _, x := range b.Sessions {
		running = append(running, x.Running.String())
	}
	trial.WantEqual(t, "running", strings.Join(running, ", "), "91252 mi, 91252 mi, 91251 mi, 12 km, 11 km, 11 km")
	trial.WantEqual(t, "as of a date", state.At(b, trial.Day("2026-04-03"), trial.Today).Odometer.String(), "91251 mi")
	// Across units: 91252 mi are 146855.85… km.
	b = trial.Compile(t, s("2026-04-01", "91252 mi")+s("2026-04-02", "146855 km")+s("2026-04-03", "146,856 km"))
	trial.WantFaults(t, "units", b, "odometer-backwards 2026-04-02.md:2:11 |146855 km|")
}
