package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// A place is what the user named: one build, or a garage of several.
type place struct {
	dir    string
	garage *journal.Garage // nil where it is one build
	builds []*journal.Build
	states []*state.State  // of the builds, on the day asked about
	reader *journal.Reader // nil where it is read only once
	seen   *watched        // notes what is read; nil where nobody asks

	// least is the severity below which nothing is looked for.
	least problem.Severity
	once  sync.Once
	found []problem.Problem // once problems was called
}

func (w *world) load(dir string, asOf measure.Date) (*place, error) {
	return w.loadPlace(&place{dir: dir}, asOf)
}

func (w *world) loadBuild(dir string, asOf measure.Date, why string) (*place, error) {
	p, err := w.load(dir, asOf)
	if err == nil && p.garage != nil {
		return nil, noBuildAlone(dir, why)
	}
	return p, err
}

func noBuildAlone(garage, why string) error {
	return wrongUsage("Name the folder of one of its builds.", "%s is a garage, and %s", garage, why)
}

// noBuild says that a folder is none, in words that name it.
func noBuild(dir, format string, args ...any) error {
	return fileTrouble("Name the folder of a build, or start one with: guidecoat note --build NAME "+dir, format, args...)
}

func (w *world) loadPlace(p *place, asOf measure.Date) (*place, error) {
	p.least = problem.Warning
	if err := p.read(); err != nil {
		return nil, err
	}
	p.states = pick.Map(p.builds, func(b *journal.Build) *state.State { return state.At(b, asOf, w.today()) })
	return p, nil
}

func (p *place) read() error {
	fsys, isBuild, err := openPlace(p.dir, p.seen)
	switch {
	case err != nil:
		return err
	case isBuild:
		var b *journal.Build
		b, err = p.reader.ReadBuildIn(fsys, p.folderName(), p.garageAbove)
		p.builds = []*journal.Build{b}
	case !journal.IsGarage(fsys):
		return noBuild(p.dir, "%s: %v", p.dir, journal.ErrNothing)
	default:
		if p.garage, err = p.reader.ReadGarage(fsys); err == nil {
			p.builds = p.garage.Builds
		}
	}
	return cannotBe("read", p.dir, err)
}

// openPlace opens a folder, and tells whether there is a job card in it.
func openPlace(dir string, seen *watched) (fsys fs.FS, isBuild bool, err error) {
	if fsys, err = openFolder(dir); err != nil {
		return nil, false, err
	}
	fsys = seen.over(fsys)
	_, err = fs.Stat(fsys, journal.CardName)
	if errors.Is(err, fs.ErrNotExist) {
		return fsys, false, nil
	}
	return fsys, err == nil, cannotBe("read", dir, err)
}

// siteName is what its site is called: as the garage, or as its one build.
func (p *place) siteName() string {
	if p.garage != nil {
		return p.garage.Name
	}
	return p.builds[0].Card.Name
}

func (p *place) forget() { p.garage, p.builds, p.states, p.found = nil, nil, nil, nil }

func (p *place) folderName() string {
	full, err := filepath.Abs(p.dir)
	if err != nil {
		return p.dir
	}
	return filepath.Base(full)
}

// garageAbove reads the garage in the folder above, nil where there is none. A later run
// then looks at everything again, since this one has seen more than its own folder.
func (p *place) garageAbove() (*journal.Garage, error) {
	fsys, err := openFolder(filepath.Join(p.dir, ".."))
	if err != nil || !journal.IsGarage(fsys) {
		return nil, err
	}
	if p.seen != nil {
		p.seen.torn = true
	}
	return journal.ReadGarage(fsys)
}

func openFolder(dir string) (fs.FS, error) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return nil, cannotBe("read", dir, err)
	case !info.IsDir():
		return nil, fileTrouble("Name the folder it is in: "+filepath.Dir(dir), "%s is a file, not a folder", dir)
	}
	return os.DirFS(dir), nil
}

// cannotBe ends the run for an error, if it is one, in what was to be done with a path: "read" or "written".
func cannotBe(done, path string, err error) error {
	if err == nil {
		return nil
	}
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		err = pe.Err
	}
	return fileTrouble("", "%s cannot be %s: %v", path, done, err)
}

func (p *place) views() []*view.View {
	return pick.Map(p.states, func(st *state.State) *view.View { return view.Of(st, view.ForWorkshop) })
}

func (p *place) name(v *view.View) string {
	if v.Name != "" {
		return v.Name
	}
	if v.BuildPath != "." {
		return path.Base(v.BuildPath)
	}
	return p.folderName()
}

// nameAmong is the name of a build where there may be others, and "" for a build of its own.
func (p *place) nameAmong(v *view.View) string { return pick.Either(p.garage != nil, p.name(v), "") }

// folder is the folder of a build in a garage, and "" for a build of its own.
func (p *place) folder(v *view.View) string {
	if p.garage == nil {
		return ""
	}
	return v.BuildPath
}

// problems are what the checks say of everything in the place, in order.
func (p *place) problems() []problem.Problem {
	p.once.Do(func() { p.found = p.check(p.least) })
	return p.found
}

func (p *place) check(least problem.Severity) []problem.Problem {
	var found []problem.Problem
	if p.garage != nil {
		found = check.RunGarage(p.garage, least)
	}
	found = append(found, pick.Gather(p.states, func(st *state.State) []problem.Problem { return check.Run(st, least) })...)
	problem.Sort(found)
	return found
}

// notes counts the files that were taken as notes, and those that were left out for a mistake.
func (p *place) notes(problems []problem.Problem) int {
	files := map[string]bool{}
	if p.garage != nil {
		files[journal.GarageName] = true
	}
	for _, b := range p.builds {
		files[b.Card.Note.File.Path] = true
		for _, s := range b.Sessions {
			files[s.Path] = true
		}
		for _, pg := range b.Pages {
			files[pg.Path] = true
		}
	}
	for _, pr := range problems {
		if pr.Severity < problem.Information {
			files[pr.Span.File.Path] = true
		}
	}
	return len(files)
}

func (p *place) linesLeftOut() int {
	n := 0
	if p.garage != nil {
		n = p.garage.LinesLeftOut
	}
	for _, b := range p.builds {
		n += b.LinesLeftOut
	}
	return n
}

func (p *place) leftOut() string {
	return sentence(p.linesLeftOut(), "1 line holds a mistake and is left out.", "%d lines hold mistakes and are left out.")
}

// verdict is how the run ends. A file that could not be read weighs more than a mistake in one that could.
func verdict(problems []problem.Problem) error {
	errs, _ := problem.Count(problems)
	switch {
	case slices.ContainsFunc(problems, func(p problem.Problem) bool { return p.Check == string(journal.Unreadable) }):
		return &exit{code: exitFiles}
	case errs > 0:
		return &exit{code: exitProblems}
	}
	return nil
}

// summary counts problems: "2 errors, 1 warning in 26 notes".
func (p *place) summary(problems []problem.Problem) string {
	errs, warnings := problem.Count(problems)
	said := together(", ", sentence(errs, "1 error", "%d errors"), sentence(warnings, "1 warning", "%d warnings"))
	return cmp.Or(said, "no errors or warnings") + " in " + count(p.notes(problems), "note")
}

// together joins what there is to say.
func together(mark string, said ...string) string {
	return strings.Join(pick.Where(said, func(text string) bool { return text != "" }), mark)
}

// some is what is said of n things where there are any.
func some(n int, format string) string { return pick.Either(n > 0, fmt.Sprintf(format, n), "") }

// sentence is what is said of n things: nothing of none, and of one in its own words.
func sentence(n int, one, many string) string {
	switch n {
	case 0:
		return ""
	case 1:
		return one
	}
	return fmt.Sprintf(many, n)
}

// count is a number of things: "1 note", "2 notes".
func count(n int, thing string) string {
	return strconv.Itoa(n) + " " + pick.Either(n == 1, thing, thing+"s")
}

// tell says on standard error, a line each, what is wrong with the notes, and returns how the run ends.
func (w *world) tell(p *place) error {
	return w.tellOf(p, pick.Where(p.problems(), func(pr problem.Problem) bool { return pr.Severity == problem.Error }), true)
}

func (w *world) tellOf(p *place, told []problem.Problem, brief bool) error {
	problems := p.problems()
	errs, warnings := problem.Count(problems)
	if errs == 0 {
		if warnings > 0 {
			w.say("%s; see: guidecoat proofread %s", p.summary(problems), p.dir)
		}
		return verdict(problems)
	}
	text := problem.Text{Colour: newScreen(w.stderr, w.getenv).colour, Brief: brief}
	if err := text.Write(w.stderr, told); err != nil {
		return cannotPrint(err)
	}
	said := strings.TrimSpace(p.summary(problems) + ". " + p.leftOut())
	if brief {
		said += " See: guidecoat proofread " + p.dir
	}
	w.say("%s", said)
	return verdict(problems)
}
