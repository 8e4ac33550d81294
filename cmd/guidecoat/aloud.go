package main

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/aloud"
	"guidecoat/journal/export"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// folderOf splits what the user named into the folder of a build, or of a garage, and
// the path of one note from there; "" where a folder was named.
func folderOf(named string) (dir, note string) {
	info, err := os.Stat(named)
	if err != nil || info.IsDir() || !strings.HasSuffix(named, ".md") {
		return named, ""
	}
	full, err := filepath.Abs(named)
	if err != nil {
		return named, ""
	}
	for dir = filepath.Dir(full); ; dir = filepath.Dir(dir) {
		for _, card := range []string{journal.CardName, journal.GarageName} {
			if _, err := os.Stat(filepath.Join(dir, card)); err == nil {
				note, _ = filepath.Rel(dir, full)
				return shortest(dir), filepath.ToSlash(note)
			}
		}
		if dir == filepath.Dir(dir) {
			return filepath.Dir(named), filepath.Base(named)
		}
	}
}

// shortest is a folder as seen from the current one, where that is below or above it.
func shortest(dir string) string {
	here, err := os.Getwd()
	if err != nil {
		return dir
	}
	if rel, err := filepath.Rel(here, dir); err == nil {
		return rel
	}
	return dir
}

// ofNote leaves the problems of one note; all of them where none is named.
func ofNote(problems []problem.Problem, note string) []problem.Problem {
	if note == "" {
		return problems
	}
	return slices.DeleteFunc(slices.Clone(problems), func(p problem.Problem) bool { return p.Span.File.Path != note })
}

// readingOf reads a build back.
func readingOf(st *state.State) []*aloud.Line { return aloud.Of(st, view.KeptFrom()) }

// readAloud reads back every line of a note, or of all where none is named.
func (w *world) readAloud(p *place, note string, problems []problem.Problem, asJSON bool) error {
	var lines []*aloud.Line
	for _, st := range p.states {
		lines = append(lines, pick.Where(readingOf(st), func(l *aloud.Line) bool { return note == "" || l.File() == note })...)
	}
	if asJSON {
		return export.Write(w.stdout, export.NewAloud(lines, problems))
	}
	s := newScreen(w.stdout, w.getenv)
	file := ""
	for _, l := range lines {
		if l.File() != file {
			file = l.File()
			s.gap()
			s.heading(file)
		}
		s.line(pad(strconv.Itoa(l.Number()), 5) + l.Typed())
		if !l.Same() {
			s.say("       ", l.Words)
		}
	}
	if err := s.flush(); err != nil {
		return err
	}
	if len(problems) > 0 {
		s.gap()
	}
	return problem.Text{Colour: s.colour}.Write(w.stdout, problems)
}
