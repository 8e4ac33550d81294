package journal

import (
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"
)

// plainCard is the job card of builds that bring none of their own.
const plainCard = `---
build: Halden Fjord
currency: GBP
vat: 20%
rates:
  EUR: 0.86
---
`

// files makes a file system of an archive in txtar form; without a build.md it
// gets plainCard.
func files(archive string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for _, f := range txtar.Parse([]byte(archive)).Files {
		fsys[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	if fsys[CardName] == nil {
		fsys[CardName] = &fstest.MapFile{Data: []byte(plainCard)}
	}
	return fsys
}

// compile reads the build in an archive.
func compile(t testing.TB, archive string) *Build {
	t.Helper()
	return compileFS(t, files(archive), ".")
}

func compileFS(t testing.TB, fsys fs.FS, dir string) *Build {
	t.Helper()
	b, err := ReadBuild(fsys, dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// card makes a build.md in pounds of those lines.
func card(lines string) string {
	return "-- build.md --\n---\nbuild: Halden Fjord\ncurrency: GBP\n" + strings.TrimSpace(lines) + "\n---\n"
}

// session makes a session note: the lines of its front matter, then its body.
func session(name, front, body string) string {
	front = strings.TrimSpace(front)
	if front == "" {
		front = "# nothing"
	}
	return "-- " + name + " --\n---\n" + front + "\n---\n" + body + "\n"
}

func day(text string) measure.Date {
	d, bad := measure.ParseDate(text)
	if bad != nil {
		panic(bad.Why)
	}
	return d
}

// today is the day that lateness is told against where no other is asked about.
var today = day("2026-07-01")

// faultsOf lists the faults but the mere information, as "flaw file:line:column |text|".
func faultsOf(b *Build) []string {
	list := []string{}
	for _, f := range b.Faults {
		if f.Flaw != LeftAlone {
			list = append(list, faultLine(f))
		}
	}
	return list
}

func faultLine(f source.Fault) string {
	at := f.Span.Begin()
	return fmt.Sprintf("%s %s:%d:%d |%s|", f.Flaw, f.Span.File.Path, at.Line, at.Column, f.Span.Text())
}

// wantFaults compares faults in whatever order they were found; the order of
// messages is the business of package problem.
func wantFaults(t *testing.T, what string, b *Build, want ...string) {
	t.Helper()
	got := faultsOf(b)
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) && len(got)+len(want) > 0 {
		t.Errorf("%s\nfaults %q\nwant   %q", what, got, want)
	}
}

// hasFault tells whether a fault of that flaw was found.
func hasFault(b *Build, flaw source.Flaw) bool {
	return slices.ContainsFunc(b.Faults, func(f source.Fault) bool { return f.Flaw == flaw })
}

func wantEqual[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s\n got %v\nwant %v", what, got, want)
	}
}

func wantList(t *testing.T, what string, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) && len(got)+len(want) > 0 {
		t.Errorf("%s\n got %q\nwant %q", what, got, want)
	}
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// exampleBuild reads the example. Where it is not there the test is skipped.
func exampleBuild(t *testing.T) (fs.FS, *Build) {
	t.Helper()
	fsys := os.DirFS("../example-build")
	if _, err := fs.Stat(fsys, CardName); err != nil {
		t.Skip("no example-build")
	}
	return fsys, compileFS(t, fsys, ".")
}
