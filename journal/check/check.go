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

	"guidecoat/journal"
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
	errors []source.Fault         // those that were reported as errors
	doubt  func() map[string]bool // the words of lines left out for them: nothing is said for lack of those
	all    func() *state.State    // every note, whatever the date of the state
	public func() *view.Shown     // what the public is shown of the same, in the notes that are looked at
	buyer  func() *view.Shown     // likewise the buyer
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
	pass := Pass{State: st, only: only, notes: notesOf(st.Build, only), names: filesOf(st.Build), errors: errorsOf(st.Build.Faults)}
	pass.all = sync.OnceValue(func() *state.State {
		if st.AsOf == 0 {
			return st
		}
		return state.At(st.Build, 0, st.Today)
	})
	pass.public = sync.OnceValue(func() *view.Shown { return view.ShownTo(pass.all(), view.ForPublic, only) })
	pass.buyer = sync.OnceValue(func() *view.Shown { return view.ShownTo(pass.all(), view.ForBuyer, only) })
	pass.doubt = sync.OnceValue(func() map[string]bool { return doubtful(st.Build, pass.errors) })
	pass.from = sync.OnceValue(func() *suppliers { return suppliersOf(st.Build) })
	pass.named = sync.OnceValue(func() []namedFile { return namedIn(pass.notes, pass.names) })
	each := make([][]problem.Problem, len(All)) // they only read, so all may run at once
	parallel.Each(len(All), func(i int) {
		if c := All[i]; c.Run != nil && c.Severity <= least {
			p := pass
			p.check, p.report = c, func(pr problem.Problem) { each[i] = append(each[i], pr) }
			c.Run(&p)
		}
	})
	found := slices.Concat(InWords(st.Build.Faults, least), slices.Concat(each...))
	if only != nil {
		found = slices.DeleteFunc(found, func(pr problem.Problem) bool { return !only[pr.Span.File.Path] })
	}
	found = settle(found, pass.notes, least)
	problem.Sort(found)
	return found
}

func errorsOf(faults []source.Fault) []source.Fault {
	return pick.Where(faults, func(f source.Fault) bool { return byName[f.Flaw].Severity == problem.Error })
}

// settle makes information of the warnings on lines that say `sure`.
func settle(found []problem.Problem, notes []words, least problem.Severity) []problem.Problem {
	sure := map[*source.File][]source.Span{} // in order
	for _, w := range notes {
		n := w.note
		add := func(l *note.Line) {
			if c := l.Clause("sure"); c != nil {
				sure[n.File] = append(sure[n.File], n.File.Span(lineStart(l.Text.Whole()), int(max(c.Span.End, l.Text.Whole().End))))
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
	if g.Note != nil {
		p := Pass{check: notPortable, notes: []words{{g.Note, false}}, errors: errorsOf(g.Faults), report: func(pr problem.Problem) { found = append(found, pr) }}
		p.check.Run(&p)
		found = settle(found, p.notes, least)
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

// All is every check, in the order of the manual.
var All = slices.Concat(ofFiles, ofFrontMatter, ofCards, ofLines, ofMoney, ofParts, ofSnags, ofSurcharges, ofMeasured, ofWords)

var ofWords = []*Check{missingFile, badPicture, keptInFile, outsideBuild, privateUnclear, privateWords, rawHTML}

// An example is the text of a session note, or an archive of whole files (txtar), in a build with the card exampleCard.
// A line marked as wrong stands only in the example that raises the check, one marked as right only in the other.
const wrongLine, rightLine = "wrong|", "right|"

// onCard is an example in lines of the job card.
func onCard(lines string) string { return besideCard("A long day.\n", lines) }

func besideCard(note, lines string) string {
	return "-- 2026-04-11.md --\n" + note + "-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\n" + lines + "---\n"
}

// twoDays is an example in the front matter of two notes.
func twoDays(first, second string) string {
	return "-- 2026-04-11.md --\n---\n" + first + "---\n-- 2026-04-12.md --\n---\n" + second + "---\n"
}

// ofCaliper is an example of money for a part that is given in exchange.
func ofCaliper(lines string) string {
	return "---\nstage: rear axle\nparts:\n  caliper-left: ordered rear caliper, left\n" + lines + "---\n"
}

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

// Words are one file whose words a page shows: the job card, a session or an extra page.
type words struct {
	note    *note.Note
	private bool // of the whole note
}

// notesOf are those of a build, whatever the date, of the paths asked for; all for nil.
func notesOf(b *journal.Build, only map[string]bool) []words {
	var list []words
	add := func(n *note.Note, private bool) {
		if only == nil || only[n.File.Path] {
			list = append(list, words{n, private})
		}
	}
	add(b.Card.Note, false)
	for _, s := range b.Sessions {
		add(s.Note, s.Private)
	}
	for _, pg := range b.Pages {
		add(pg.Note, pg.Private)
	}
	return list
}

// looks tells whether the note of a session is looked at.
func (p *Pass) looks(s *journal.Session) bool { return p.only == nil || p.only[s.Path] }

// leftOut tells whether a line counts nowhere.
func (p *Pass) leftOut(l *note.Line) bool { return p.State.Build.LeftOut(l) }

// doubtful are the words of lines left out for a mistake.
func doubtful(b *journal.Build, errors []source.Fault) map[string]bool {
	inBuild := map[*source.File]bool{}
	for _, w := range notesOf(b, nil) {
		inBuild[w.note.File] = true
	}
	lost := map[source.Span]bool{}
	for _, f := range errors {
		data := f.Span.File.Data
		start, end := 0, len(data) // the whole of a note that was left out
		if inBuild[f.Span.File] {
			start = lineStart(f.Span)
			if n := bytes.IndexByte(data[start:], '\n'); n >= 0 {
				end = start + n
			}
		}
		lost[f.Span.File.Span(start, end)] = true
	}
	doubt := map[string]bool{}
	takeIn := func(text string) {
		for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return !isIDRune(r) }) {
			doubt[word] = true
		}
	}
	for at := range lost {
		takeIn(at.Text())
	}
	for _, s := range b.Sessions {
		for i := range s.Note.Fields {
			if f := &s.Note.Fields[i]; f.Repeated { // reported at its key, and lost with what stands below
				for _, l := range f.Lines() {
					takeIn(l.S)
				}
			}
		}
	}
	return doubt
}

func lineStart(at source.Span) int { return bytes.LastIndexByte(at.File.Data[:at.Start], '\n') + 1 }

func isIDRune(r rune) bool { return r == '-' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' }

// lastIn returns the line in which a part last came into that state from another.
func lastIn(part *state.Part, state string) *journal.PartLine {
	var at *journal.PartLine
	for i, l := range part.Lines {
		if l.State == state && (i == 0 || part.Lines[i-1].State != state) {
			at = l
		}
	}
	return at
}
