package check

import (
	"bytes"
	"fmt"
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

// Slips in days, and in what is told in words alone.

var futureNote = &Check{
	Name: "future-note", Severity: problem.Information,
	Summary: "a session dated later than today",
	Explain: "Its time and money count already. " +
		"That is right for a plan, but mostly the year or the month is a slip.",
	Example: "wrong|-- 2027-04-11.md --\nright|-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Run:     future(false),
}

var farFutureNote = &Check{
	Name: "far-future-note", Severity: problem.Warning,
	Summary: "a session dated more than a year later than today",
	Explain: "Nobody plans a day's work that far ahead, so the year is a slip. " +
		"The session stands after all others and its time and money count already.",
	Example: "wrong|-- 2126-04-11.md --\nright|-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Run:     future(true),
}

// future reports the sessions later than today: by more than a year, or by less.
func future(far bool) func(p *Pass) {
	return func(p *Pass) {
		today := p.State.Today
		for _, s := range p.State.Sessions {
			// As of a day later notes do not count, and nobody need wonder.
			if p.State.AsOf == 0 && s.Date > today && far == (s.Date > today.AddDays(366)) {
				p.Report(dateOf(s), fmt.Sprintf("%q is later than today, %s", s.Date, today), "Check the date.")
			}
		}
	}
}

// dateOf is where a session says its date, or else its beginning, for the name of its file says it.
func dateOf(s *journal.Session) source.Span {
	if l := s.Note.Line("date"); l != nil {
		return l.HeadSpan()
	}
	return s.Note.File.Span(0, 0)
}

var yearSlip = &Check{
	Name: "year-slip", Severity: problem.Warning,
	Summary: "a session years from all others, or one that a year later would follow one of them",
	Explain: "In January the old year is easily written on. " +
		"The session then stands before the work it belongs to, and what it clears was not open yet.",
	Example: "-- 2026-01-03.md --\n---\nstage: body\n---\n-- 2026-01-05.md --\n---\nstage: body\n---\nwrong|-- 2025-01-09.md --\nright|-- 2026-01-09.md --\n---\nstage: body\n---\n",
	Run: func(p *Pass) {
		sessions := p.State.Build.Sessions // in the order of their dates
		if len(sessions) < 3 {
			return
		}
		for i, s := range sessions {
			if i > 0 && apart(sessions[i-1], s) <= halfYear || i+1 < len(sessions) && apart(s, sessions[i+1]) <= halfYear {
				continue
			}
			at := dateOf(s)
			if (i == 0 || apart(sessions[i-1], s) > 2*year) && (i+1 == len(sessions) || apart(s, sessions[i+1]) > 2*year) {
				if s.Date <= p.State.Today { // else it is told as one of the future
					p.Report(at, fmt.Sprintf("%q is more than two years from all other sessions", s.Date), "Check the year.")
				}
			} else if o := yearLater(s, sessions[i+1:]); o != nil {
				p.Report(at, fmt.Sprintf("%q is far from all other sessions, but a year later it would follow %q", s.Date, o.Date), "Check the year.")
			}
		}
	},
}

const month, halfYear, year = 31, 180, 365 // in days

func apart(a, b *journal.Session) int { return a.Date.DaysUntil(b.Date) }

// yearLater is the session of those after it that it would follow closely, or nil.
func yearLater(s *journal.Session, after []*journal.Session) (last *journal.Session) {
	for _, o := range after {
		days := apart(s, o)
		if days > year {
			break
		}
		if days >= year-month {
			last = o
		}
	}
	return last
}

var dateSlip = &Check{
	Name: "date-slip", Severity: problem.Warning,
	Summary: "a date in a line that does not fit the day of its note",
	Explain: "What is due, or under warranty, ends after the note is written, and what is paid was paid about then. " +
		"A date far from that is mostly a slip in the year, and the line counts in the wrong year or is overdue at once.",
	Example: "---\nstage: body\nwrong|cost: 64.00 filler; on 2062-04-10\nright|cost: 64.00 filler; on 2026-04-10\n---\n",
	Run: func(p *Pass) {
		for _, s := range p.State.Build.Sessions {
			if !p.looks(s) {
				continue
			}
			for _, l := range s.Note.Lines {
				if p.leftOut(l) {
					continue
				}
				for _, c := range l.Clauses {
					if day, ok := c.Value.(measure.Date); ok {
						if why := misfit(l.Kind.Key, c.Word, day, s, p.State.Build.Sessions[:s.Place]); why != "" {
							p.Report(c.Arg.Whole(), quote(c.Arg.S)+" is "+why, "Check the date.")
						}
					}
				}
			}
			for _, it := range s.Note.Items {
				due, ok := note.Arg[note.Due](it.Line, "due")
				if ok && !p.leftOut(it.Line) && due.Date != 0 && due.Date.DaysUntil(s.Date) > halfYear {
					c := it.Clause("due")
					p.Report(c.Arg.Whole(), quote(c.Arg.S)+" is more than half a year before the note, "+s.Date.String(), "Check the date.")
				}
			}
		}
	},
}

// misfit says how a date of a line does not fit its session, "" where it does.
func misfit(key, clause string, day measure.Date, s *journal.Session, before []*journal.Session) string {
	first := s
	if len(before) > 0 {
		first = before[0]
	}
	switch {
	case clause == "due" || clause == "warranty":
		if day < s.Date {
			return "before the note, " + s.Date.String()
		}
	case clause != "on":
	case s.Date.DaysUntil(day) > halfYear:
		return "more than half a year after the note, " + s.Date.String()
	case day.DaysUntil(first.Date) > 2*year:
		return "more than two years before the first note, " + first.Date.String()
	case (key == "sold" || key == "sale") && len(before) > 0:
		if last := before[len(before)-1]; day.DaysUntil(last.Date) > month {
			return "more than a month before the work of " + last.Date.String()
		}
	case day < first.Date && max(year-day.DaysUntil(s.Date), day.DaysUntil(s.Date)-year) < month:
		return "a year before the note, " + s.Date.String()
	}
	return ""
}

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
	Name: "same-line", Severity: problem.Warning,
	Summary: "the same money twice in one note",
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

var codeInWords = &Check{
	Name: "code-in-words", Severity: problem.Warning,
	Summary: "a fault code that stands in words alone",
	Explain: "Fault codes are outstanding only in a scan, so that a later scan of the same control unit can clear them. " +
		"A code that some scan of the build holds may be told of in words.",
	Example: "wrong|The fault code C0035 was stored.\nright|~~~ scan abs\nright|C0035 left front wheel speed\nright|~~~\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, at := range toldCodes(w.note) {
				code := at.Text()
				holds := func(c note.Code) bool { return strings.HasPrefix(c.Code, code) }
				if !slices.ContainsFunc(p.State.Build.Scans, func(s *journal.Scan) bool { return slices.ContainsFunc(s.Codes, holds) }) {
					p.Report(at, "the fault code "+quote(code)+" is in words alone, and is not outstanding", "Write it into a block that begins with \"```scan engine\", or names another control unit.")
				}
			}
		}
	},
}

var faultCode = regexp.MustCompile(`(?:[Ff]ault|[Tt]rouble|[Ee]rror) codes?:? ([PBCU][0-3][0-9A-F]{3})\b`)

// toldCodes are the codes that the words of a body call fault codes, but for those of its items, which are outstanding.
func toldCodes(n *note.Note) (list []source.Span) {
	body := n.BodyStart()
	if !bytes.Contains(n.File.Data[body:], []byte(" code")) { // which takes less time to tell
		return nil
	}
	for _, at := range faultCode.FindAllSubmatchIndex(n.File.Data[body:], -1) {
		if code := n.File.Span(body+at[2], body+at[3]); !slices.ContainsFunc(n.Items, func(it *note.Item) bool { return it.At <= int(code.Start) && int(code.Start) < it.End }) {
			list = append(list, code)
		}
	}
	return list
}
