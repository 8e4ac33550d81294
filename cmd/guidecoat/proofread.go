package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/aloud"
	"guidecoat/journal/check"
	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/spf13/cobra"
)

const allChecks = "all"

func checkNames() []string {
	return slices.Concat([]string{allChecks}, pick.Map(check.All, func(c *check.Check) string { return string(c.Name) }),
		pick.Map(journal.BuiltInDueRules(), func(r journal.DueRule) string { return r.Name }))
}

func newProofread(w *world) *cobra.Command {
	var about string
	var day measure.Date
	var all, asJSON, asSARIF, aloud bool
	cmd := &cobra.Command{
		Use:   "proofread [DIR or NOTE]",
		Short: "Checks everything that the notes say.",
		Long: "Checks everything that the notes say, and prints what is not understood or does not fit together, each with " +
			"its place and a way out. The problems go to standard output, a count of them to " +
			"standard error.\n\nAn error means that a line is left out of every figure; the exit code is then 1. A warning means " +
			"that everything was read but is probably not what was meant.\n\nWith --aloud every line is read back in words, as it was " +
			"understood; where a NOTE is named, the lines of that note.",
		Example: "guidecoat proofread halden\nguidecoat proofread --about unknown-stage",
		PreRunE: alone("json sarif about", "aloud sarif about"),
	}
	word(cmd, &about, "about", "tell what `CHECK` means, with a bad and a good example, or why work makes it due; \"all\" lists the checks", "check", checkNames)
	cmd.Flags().BoolVar(&all, "all", false, "show what is merely worth knowing too")
	asOf(cmd, &day, "count only what is dated on or before `DATE`; mistakes count whatever their date")
	cmd.Flags().BoolVar(&aloud, "aloud", false, "read every line back in words, as it was understood")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the problems, and with --aloud the lines, as JSON")
	cmd.Flags().BoolVar(&asSARIF, "sarif", false, "print the problems as SARIF 2.1.0, for editors and code hosts")
	return onFolder(cmd, func(_ *cobra.Command, named string) error {
		if about != "" {
			_, err := fmt.Fprint(w.stdout, cmp.Or(check.AboutNamed(about), check.AboutAll()))
			return cannotPrint(err)
		}
		dir, note := folderOf(named)
		p, err := w.load(dir, day)
		if err != nil {
			return err
		}
		if all || asJSON || asSARIF {
			p.least = problem.Information
		}
		problems := ofNote(p.problems(), note)
		switch {
		case aloud:
			err = w.readAloud(p, note, problems, asJSON)
		case asJSON:
			err = problem.WriteJSON(w.stdout, problems)
		case asSARIF:
			err = problem.WriteSARIF(w.stdout, problems, rules(), version())
		default:
			err = problem.Text{Colour: newScreen(w.stdout, w.getenv).colour}.Write(w.stdout, problems)
		}
		if err != nil {
			return cannotPrint(err)
		}
		w.say("%s", p.summary(problems))
		return verdict(problems)
	})
}

func rules() []problem.Rule {
	return pick.Map(check.All, func(c *check.Check) problem.Rule {
		return problem.Rule{ID: string(c.Name), Short: c.Summary, Full: c.Explain, Severity: c.Severity}
	})
}

// folderOf splits what the user named into the folder of a build or garage, and the note in it; "" for a folder.
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
	here, _ := os.Getwd() // from "" there is no way
	if rel, err := filepath.Rel(here, dir); err == nil {
		return rel
	}
	return dir
}

func ofNote(problems []problem.Problem, note string) []problem.Problem {
	if note == "" {
		return problems
	}
	return pick.Where(problems, func(p problem.Problem) bool { return p.Span.File.Path == note })
}

func readingOf(st *state.State) []*aloud.Line { return aloud.Of(st, view.KeptFrom()) }

func (w *world) readAloud(p *place, note string, problems []problem.Problem, asJSON bool) error {
	lines := pick.Where(pick.Gather(p.states, readingOf), func(l *aloud.Line) bool { return note == "" || l.File() == note })
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
