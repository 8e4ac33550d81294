// Package check makes problems that a person can act on of what was found in the notes.
//
// A check is one value: its message, its page of `proofread --about`, its row in the manual and its tests are made from it.
package check

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/parallel"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// A Check is one thing that is looked for. It has one of Message, Say and Run.
type Check struct {
	Name     source.Flaw // kebab-case
	Severity problem.Severity
	Summary  string // one line, no full stop: what it finds
	Explain  string // why it matters and what to do, in plain sentences
	// Example is a mistake and the same put right. See [Check.Examples].
	Example string
	// Elsewhere says that the mistake is not in the text of a note, so that no example shows it.
	Elsewhere bool

	// Privacy says that somebody may read more than was meant: publishing prints such a warning in full.
	Privacy bool
	// Stops says that nothing is published until the warning is dealt with.
	Stops bool

	// Message puts a fault in words, without capital or full stop; Help is one or two sentences. See [fill] for {braces}.
	Message, Help string
	// Say does both where they depend on the fault.
	Say func(f source.Fault) (message, help string)
	// Run looks at the build itself and reports what it finds.
	Run func(p *Pass)
}

// A Pass is one check's look at a build.
type Pass struct {
	State  *state.State
	check  *Check
	only   map[string]bool // the notes that are looked at, by their paths; all for nil
	notes  []words         // the same
	names  *files
	errors []source.Fault                  // those that were reported as errors
	all    func() *state.State             // every note, whatever the date of the state
	shown  func(view.Audience) *view.Shown // of the same, in the notes that are looked at
	from   func() *suppliers
	named  func() []namedFile // by the notes that are looked at
	report func(problem.Problem)
}

func (p *Pass) Report(at source.Span, message, help string) { p.ReportFix(at, message, help, nil) }

// ReportFix reports a problem with what puts it right.
func (p *Pass) ReportFix(at source.Span, message, help string, fix *source.Fix) {
	p.report(p.check.problem(at, message, help, fix))
}

// problem is a problem of that check. The nearest word that help offers puts it right.
func (c *Check) problem(at source.Span, message, help string, fix *source.Fix) problem.Problem {
	word, near := strings.CutPrefix(help, nearestIs)
	switch word, _, _ = strings.Cut(word, "\"."); {
	case fix != nil:
	case near && strings.Contains(message, quote(at.Text())), help == deleteIt:
		fix = &source.Fix{Span: at, Text: word}
		if help == deleteIt {
			fix.Text = ""
		}
	}
	return problem.Problem{Check: string(c.Name), Severity: c.Severity, Span: at, Message: message, Help: help, Fix: fix}
}

// Run applies the checks of that severity and worse to a build as it stood, and returns the problems in order.
func Run(st *state.State, least problem.Severity) []problem.Problem { return RunOn(st, least, nil) }

// RunOn is what Run says of some notes, by path, in far less time; of all for nil.
func RunOn(st *state.State, least problem.Severity, only map[string]bool) []problem.Problem {
	found := InWords(st.Build.Faults, least)
	errors := pick.Where(st.Build.Faults, func(f source.Fault) bool { return byName[f.Flaw].Severity == problem.Error })
	all := sync.OnceValue(func() *state.State {
		if st.AsOf == 0 {
			return st
		}
		return state.At(st.Build, 0, st.Today)
	})
	shown := shownBy(all, only)
	looked := notesOf(st.Build, only)
	names := filesOf(st.Build)
	from := sync.OnceValue(func() *suppliers { return suppliersOf(st.Build) })
	named := sync.OnceValue(func() []namedFile { return namedIn(looked, names) })
	each := make([][]problem.Problem, len(All)) // they only read, so all may run at once
	parallel.Each(len(All), func(i int) {
		if c := All[i]; c.Run != nil && c.Severity <= least {
			c.Run(&Pass{State: st, check: c, only: only, notes: looked, names: names, errors: errors, all: all, shown: shown, from: from, named: named, report: func(p problem.Problem) { each[i] = append(each[i], p) }})
		}
	})
	found = append(found, slices.Concat(each...)...)
	if only != nil {
		found = slices.DeleteFunc(found, func(pr problem.Problem) bool { return !only[pr.Span.File.Path] })
	}
	found = settle(found, looked, least)
	problem.Sort(found)
	return found
}

// shownBy tells what each audience is shown of those notes, once somebody asks.
func shownBy(all func() *state.State, only map[string]bool) func(view.Audience) *view.Shown {
	each := map[view.Audience]func() *view.Shown{}
	for _, to := range view.Audiences() {
		each[to] = sync.OnceValue(func() *view.Shown { return view.ShownTo(all(), to, only) })
	}
	return func(to view.Audience) *view.Shown { return each[to]() }
}

// settle makes information of the warnings on lines that say `sure`.
func settle(found []problem.Problem, notes []words, least problem.Severity) []problem.Problem {
	sure := map[*source.File][]source.Span{} // in order
	for _, w := range notes {
		n := w.note
		add := func(l *note.Line) {
			if c := l.Clause("sure"); c != nil {
				start := bytes.LastIndexByte(n.File.Data[:l.Text.Whole().Start], '\n') + 1
				sure[n.File] = append(sure[n.File], n.File.Span(start, int(max(c.Span.End, l.Text.Whole().End))))
			}
		}
		for _, l := range n.Lines {
			add(l)
		}
		for _, it := range n.Items {
			add(it.Line)
		}
	}
	for i := range found {
		pr := &found[i]
		if lines := sure[pr.Span.File]; pr.Severity == problem.Warning && lines != nil {
			next, _ := slices.BinarySearchFunc(lines, pr.Span.Start+1, func(s source.Span, at int32) int { return cmp.Compare(s.Start, at) })
			if next > 0 && pr.Span.Start < lines[next-1].End {
				pr.Severity, pr.Message = problem.Information, pr.Message+", settled by \"sure\""
			}
		}
	}
	return slices.DeleteFunc(found, func(pr problem.Problem) bool { return pr.Severity > least })
}

// RunGarage checks what stands in garage.md itself.
func RunGarage(g *journal.Garage, least problem.Severity) []problem.Problem {
	found := InWords(g.Faults, least)
	if least >= notPortable.Severity && g.Note != nil {
		p := Pass{check: notPortable, report: func(p problem.Problem) { found = append(found, p) }}
		reportNotPortable(&p, []*note.Note{g.Note}, g.Faults)
	}
	if g.Note != nil {
		found = settle(found, []words{{g.Note, false}}, least)
	}
	problem.Sort(found)
	return found
}

// InWords says what of that severity and worse was recorded while something was read.
func InWords(faults []source.Fault, least problem.Severity) []problem.Problem {
	var found []problem.Problem
	for _, f := range faults {
		c := byName[f.Flaw]
		if c.Severity > least {
			continue
		}
		message, help := fill(c.Message, f), cmp.Or(f.Help, fill(c.Help, f))
		if c.Say != nil {
			message, help = c.Say(f)
		}
		found = append(found, c.problem(f.Span, message, help, f.Fix))
	}
	return found
}

// Named returns the check of that name, or nil.
func Named(name string) *Check { return byName[source.Flaw(name)] }

var byName = func() map[source.Flaw]*Check {
	m := map[source.Flaw]*Check{}
	for _, c := range All {
		m[c.Name] = c
	}
	return m
}()

// Nearest offers the word that was probably meant, then says the rest.
func Nearest(word string, from []string, rest string) string {
	if n := mostLikely(word, from); n != "" {
		return strings.TrimSpace(nearestIs + n + "\". " + rest)
	}
	if longer := pick.Where(from, func(w string) bool { return near.IsMeant(word, w) }); len(longer) > 0 {
		return strings.TrimSpace("Write \"" + strings.Join(longer, "\" or \"") + "\". " + rest)
	}
	return rest
}

const (
	nearestIs = "Nearest: \""
	deleteIt  = "Delete it."
)

// sameMeaning are words of the trade that people write for those of the notes.
var sameMeaning = map[string]string{
	"mileage": "odometer", "milage": "odometer", "miles": "odometer", "odo": "odometer", "km": "odometer", "kilometres": "odometer",
	"hours": "time", "expenses": "cost", "spent": "cost", "refunds": "credit", "measurements": "readings",
	"delivered": "arrived", "received": "arrived", "got": "arrived", "bought": "ordered", "installed": "fitted", "mounted": "fitted",
	"bent": "needed", "broken": "needed", "cracked": "needed", "lights": "lighting", "lamps": "lighting", "lamp": "lighting",
	"second-hand": "used", "secondhand": "used", "refurbished": "reconditioned", "remanufactured": "reconditioned", "oem": "genuine", "aftermarket": "pattern",
}

// begun is the only word that begins with one of some length: need, consum, priv.
func begun(word string, from []string) string {
	const least = 3
	word = strings.ToLower(strings.TrimRight(word, "."))
	begins := func(w string) bool {
		return len(word) >= least && strings.HasPrefix(w, word) && !strings.HasPrefix(w, word+" ")
	}
	i := slices.IndexFunc(from, begins)
	if i < 0 || slices.ContainsFunc(from[i+1:], begins) {
		return ""
	}
	return from[i]
}

// mostLikely is the nearest word, rather one as long as the word itself: swapped letters are the commonest slip.
func mostLikely(word string, from []string) string {
	best := near.Nearest(word, from)
	length := utf8.RuneCountInString(word)
	if meant := cmp.Or(sameMeaning[strings.ToLower(word)], begun(word, from)); best == "" && slices.Contains(from, meant) {
		return meant
	}
	if best == "" || utf8.RuneCountInString(best) == length {
		return best
	}
	alike := pick.Where(from, func(w string) bool { return utf8.RuneCountInString(w) == length })
	slips := near.Distance(word, best, 2)
	if n := near.Nearest(word, alike); n != "" && near.Distance(word, n, slips) == slips {
		return n
	}
	return best
}

// All is every check, in the order of the manual.
var All = slices.Concat(ofFiles, ofFrontMatter, ofCards, ofLines, ofMoney, ofParts, ofSnags, ofSurcharges, ofMeasured, ofWords)

var ofWords = []*Check{missingFile, badPicture, keptInFile, outsideBuild, privateUnclear, privateWords, rawHTML}

// An example is the text of a session note, or an archive of whole files (txtar), in a build with the card exampleCard.
// A line marked as wrong stands only in the example that raises the check, one marked as right only in the other.
const wrongLine, rightLine = "wrong|", "right|"

// Examples are the example as it raises the check, and as it is put right.
func (c *Check) Examples() (bad, good string) {
	for line := range strings.Lines(c.Example) {
		wrong, isWrong := strings.CutPrefix(line, wrongLine)
		right, isRight := strings.CutPrefix(line, rightLine)
		if !isRight {
			bad += wrong
		}
		if !isWrong {
			good += right
		}
	}
	return bad, good
}
