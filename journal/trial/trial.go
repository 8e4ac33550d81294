// Package trial makes small builds for tests out of the texts of their notes.
package trial

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
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

// Files makes a file system of an archive in txtar form; without a build.md it
// gets plainCard.
func Files(archive string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for _, f := range txtar.Parse([]byte(archive)).Files {
		fsys[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	if fsys[journal.CardName] == nil {
		fsys[journal.CardName] = &fstest.MapFile{Data: []byte(plainCard)}
	}
	return fsys
}

// Compile reads the build in an archive.
func Compile(t testing.TB, archive string) *journal.Build {
	t.Helper()
	return CompileFS(t, Files(archive), ".")
}

// CompileFS reads the build in a folder of a file system.
func CompileFS(t testing.TB, fsys fs.FS, dir string) *journal.Build {
	t.Helper()
	b, err := journal.ReadBuild(fsys, dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Card makes a build.md in pounds of those lines.
func Card(lines string) string {
	return "-- build.md --\n---\nbuild: Halden Fjord\ncurrency: GBP\n" + strings.TrimSpace(lines) + "\n---\n"
}

// Session makes a session note: the lines of its front matter, then its body.
func Session(name, front, body string) string {
	front = cmp.Or(strings.TrimSpace(front), "# nothing")
	return "-- " + name + " --\n---\n" + front + "\n---\n" + body + "\n"
}

// Day is a date as it is written.
func Day(text string) measure.Date {
	d, bad := measure.ParseDate(text)
	if bad != nil {
		panic(bad.Why)
	}
	return d
}

// Today is the day that lateness is told against where no other is asked about.
var Today = Day("2026-07-01")

// FaultsOf lists the faults but the mere information, as "flaw file:line:column |text|".
func FaultsOf(b *journal.Build) []string {
	list := []string{}
	list = append(list, pick.Map(pick.Where(b.Faults, func(f source.Fault) bool { return f.Flaw != journal.LeftAlone }), FaultLine)...)
	return list
}

// FaultLine shows one fault as FaultsOf does.
func FaultLine(f source.Fault) string {
	at := f.Span.Begin()
	return fmt.Sprintf("%s %s:%d:%d |%s|", f.Flaw, f.Span.File.Path, at.Line, at.Column, f.Span.Text())
}

// WantFaults compares faults in whatever order they were found; the order of
// messages is the business of package problem.
func WantFaults(t *testing.T, what string, b *journal.Build, want ...string) {
	t.Helper()
	got := FaultsOf(b)
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) && len(got)+len(want) > 0 {
		t.Errorf("%s\nfaults %q\nwant   %q", what, got, want)
	}
}

// HasFault tells whether a fault of that flaw was found.
func HasFault(b *journal.Build, flaw source.Flaw) bool {
	return slices.ContainsFunc(b.Faults, func(f source.Fault) bool { return f.Flaw == flaw })
}

// WantEqual compares two values.
func WantEqual[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s\n got %v\nwant %v", what, got, want)
	}
}

// WantList compares two lists, of which none is as good as an empty one.
func WantList(t *testing.T, what string, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) && len(got)+len(want) > 0 {
		t.Errorf("%s\n got %q\nwant %q", what, got, want)
	}
}

// Dec is a number as it is written.
func Dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }
