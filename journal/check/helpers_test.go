package check

import (
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

var update = flag.Bool("update", false, "write what is printed to testdata")

// today is the day of every test.
var today = measure.NewDate(2026, 11, 25)

// archive is the whole build that an example stands for, in txtar form.
func archive(example string) string {
	has := func(name string) bool { return strings.Contains("\n"+example, "\n-- "+name+" --\n") }
	if !strings.HasPrefix(example, "-- ") {
		example = "-- " + exampleNote + " --\n" + example
	}
	if !has(journal.CardName) && !has(journal.GarageName) {
		example += "-- " + journal.CardName + " --\n" + exampleCard
	}
	return example
}

// folder is the build or garage that an example stands for.
func folder(example string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for _, f := range txtar.Parse([]byte(archive(example))).Files {
		fsys[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return fsys
}

// proofread returns all problems of a build or garage.
func proofread(t testing.TB, fsys fs.FS) []problem.Problem {
	t.Helper()
	if !journal.IsGarage(fsys) {
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		return Run(state.At(b, 0, today), problem.Information)
	}
	g, err := journal.ReadGarage(fsys)
	if err != nil {
		t.Fatal(err)
	}
	found := RunGarage(g, problem.Information)
	for _, b := range g.Builds {
		found = append(found, Run(state.At(b, 0, today), problem.Information)...)
	}
	return found
}

func printed(t testing.TB, problems []problem.Problem) string {
	t.Helper()
	var b strings.Builder
	if err := (problem.Text{}).Write(&b, problems); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// wantOf holds that a check says that once of an example, or nothing where want is "".
func wantOf(t *testing.T, check, example, want string) {
	t.Helper()
	var own []problem.Problem
	for _, p := range proofread(t, folder(example)) {
		if p.Check == check {
			own = append(own, p)
		}
	}
	if got := printed(t, own); want == "" && len(own) > 0 || want != "" && (len(own) != 1 || !strings.Contains(got, want)) {
		t.Errorf("%s got:\n%s\nwant: %s", example, got, want)
	}
}

// golden compares with a file below testdata, or writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	name = filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines, wanted := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range max(len(lines), len(wanted)) {
		if i >= len(lines) || i >= len(wanted) || lines[i] != wanted[i] {
			t.Errorf("%s differs from line %d on; got:\n%s\nwant:\n%s", name, i+1,
				strings.Join(lines[min(i, len(lines)):min(i+4, len(lines))], "\n"),
				strings.Join(wanted[min(i, len(wanted)):min(i+4, len(wanted))], "\n"))
			return
		}
	}
}

// names lists the checks of problems, without information.
func names(problems []problem.Problem) []string {
	list := []string{}
	for _, p := range problems {
		if p.Severity != problem.Information {
			list = append(list, p.Check)
		}
	}
	return list
}

const exampleNote = "2026-04-11.md"

const exampleCard = `---
build: Example estate
currency: GBP
vat: 20%
rates:
  EUR: 0.86
stages:
  buying: budget 1500; purchase
  rear axle: budget 260 340 520; system suspension
  body: budget 400
---
`
