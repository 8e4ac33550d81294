package check

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// What stands twice.

var sameNote = &Check{
	Name: "same-note", Severity: problem.Warning,
	Summary: "two notes of one day and the same words",
	Explain: "A copy of a note that was left beside it counts like any other. " +
		"Its time and costs are then counted twice.",
	Example: "-- 2026-04-11.md --\n---\nstage: body\ncost: 64.00 filler\n---\nwrong|-- 2026-04-11 copy.md --\nright|-- 2026-04-11 later.md --\n---\nstage: body\nwrong|cost: 64.00 filler\nright|cost: 12.00 paper\n---\n",
	Run: func(p *Pass) {
		alike, day := map[int][]*journal.Session{}, measure.Date(0) // by their sizes
		for _, s := range p.State.Build.Sessions {
			if s.Date != day { // short notes of two days may well be the same
				day = s.Date
				clear(alike)
			}
			counts := func(l *note.Line) bool { return l.Kind.Shape != note.One }
			if len(s.Note.Items) == 0 && !slices.ContainsFunc(s.Note.Lines, counts) {
				continue
			}
			size := len(s.Note.File.Data)
			same := slices.IndexFunc(alike[size], func(other *journal.Session) bool { return bytes.Equal(other.Note.File.Data, s.Note.File.Data) })
			if same >= 0 {
				p.Report(s.Note.File.Span(0, 0), "the note holds the same as "+quote(alike[size][same].Path)+", to the letter, and counts beside it", "Take one of the two out of the build if it is a copy.")
			} else {
				alike[size] = append(alike[size], s)
			}
		}
	},
}

var sameLine = &Check{
	Name:     "same-line",
	Severity: problem.Warning,
	Summary:  "the same money twice in one note",
	Explain: "A line of cost or credit that was pasted or typed twice counts twice, and no total looks wrong by it. " +
		"Take one out, or write `; sure` behind it if it was paid twice.",
	Example: "---\nstage: body\ncost:\n  - 64.00 filler; from Tidewell Dismantlers\nwrong|  - 64.00 filler; from Tidewell Dismantlers\nright|  - 12.00 paper\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			lines := pick.Where(w.note.Lines, func(l *note.Line) bool { return isMoney(l) && !p.leftOut(l) })
			sums := map[string]int{} // by the head alone, since few are alike
			for _, l := range lines {
				sums[sumOf(l)]++
			}
			first := map[string]source.Span{}
			for _, l := range lines {
				if sums[sumOf(l)] == 1 {
					continue
				}
				said := alike(l)
				if at, twice := first[said]; twice {
					p.Report(l.Text.Whole(), "the same as at "+place(at)+", so it counts twice", "Delete one of the two, or write \"; sure\" behind this one if it was paid twice.")
				} else {
					first[said] = l.Text.Whole()
				}
			}
		}
	},
}

func sumOf(l *note.Line) string { return strings.ToLower(l.HeadSpan().Text()) }

// alike is what a line says, whatever the order of its clauses, its spaces and its capitals.
func alike(l *note.Line) string {
	said := pick.Map(pick.Where(l.Clauses, func(c note.Found) bool { return c.Word != "sure" }), func(c note.Found) string { return c.Word + " " + c.Arg.S })
	slices.Sort(said)
	said = append(said, l.Kind.Key, sumOf(l), l.Words().S)
	return strings.ToLower(strings.Join(strings.Fields(strings.Join(said, "; ")), " "))
}

var secondScan = &Check{
	Name: "second-scan", Severity: problem.Information,
	Summary: "a second fault scan of one control unit on one day",
	Explain: "Both are kept, and the later one tells what is outstanding. Later is the one further down in the note, or in the note " +
		"that comes later by its path: see that this is the one that was read last.",
	Example: "---\nstage: body\n---\nwrong|```scan abs\nwrong|C0035 left front wheel speed\nwrong|```\nwrong|\nwrong|Cleared, driven round the block, read again:\nright|Before: C0035, left front wheel speed. Cleared, driven round the block, read again:\n\n```scan abs\nno faults\n```\n",
	Run: func(p *Pass) {
		type unitOnDay struct {
			unit string
			day  measure.Date
		}
		before := map[unitOnDay]*journal.Scan{}
		for _, s := range p.State.Build.Scans {
			key := unitOnDay{s.Name, s.Session.Date}
			if first := before[key]; first != nil {
				p.Report(s.Span, "a second scan of "+quote(s.Name)+" on "+s.Session.Date.String(), "This one counts, since it comes after the one at "+place(first.Span)+".")
			}
			before[key] = s
		}
	},
}

var secondState = &Check{
	Name: "second-state", Severity: problem.Warning,
	Summary: "a line of a part with a second state in its words",
	Explain: "A line takes a part to one state, its first word. " +
		"A part that came and was fitted on one day is fitted.",
	Example: "---\nstage: body\nparts:\n  - door-seal: needed door seal; free\nwrong|  - door-seal: arrived and fitted\nright|  - door-seal: fitted on the day it arrived\n---\n",
	Run: func(p *Pass) {
		for _, part := range p.State.Parts {
			for _, l := range part.Lines {
				if !p.looks(l.Session) {
					continue
				}
				words := l.Line.Words()
				if at := another.FindStringSubmatchIndex(words.S); at != nil && words.S[at[2]:at[3]] != l.State {
					state := words.S[at[2]:at[3]]
					p.Report(words.Span(at[2], at[3]), quote(part.ID)+" is "+l.State+", and not "+state, "Write "+quote(state)+" as the first word if that is its state, or a line for each.")
				}
			}
		}
	},
}

// another finds a state behind the first, where nothing but the end or a mark follows.
var another = regexp.MustCompile(`^(?:(?:and then|and|then|&|\+|/|,)\s*)?(` + strings.Join(note.States, "|") + `)(?:$|[.,;!])`)
