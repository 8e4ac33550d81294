// Package aloud reads the notes back: what each line was understood to say, in words and as values.
//
// A line's reading is made of what the build and its state hold of it, never of the
// text again, so that words and figures cannot tell different things.
package aloud

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
)

// A Line is one line of a note with what it was understood to say.
type Line struct {
	Span source.Span // of the line as it was typed, without its key or name
	Key  string      // the key it stands at; "snag" for an item, "scan" for a code
	Name string      // the name of a named line
	// Words say it in the builder's words, in pieces set apart by Between.
	Words string
	// LeftOut says that the line counts nowhere, for a mistake in it.
	LeftOut bool
	Reading Reading
}

// File is the path of the note, from the folder the user named.
func (l *Line) File() string { return l.Span.File.Path }

// Number is its line in the file, from 1.
func (l *Line) Number() int { return l.Span.Begin().Line }

// Typed is the line as it was typed, with its name and without its breaks.
func (l *Line) Typed() string {
	typed := strings.Join(strings.Fields(l.Span.Text()), " ")
	if l.Name != "" && l.Key != "scan" {
		typed = l.Name + ": " + typed
	}
	return typed
}

// Same tells whether the words say no more than what was typed.
func (l *Line) Same() bool { return l.Words == strings.TrimPrefix(l.Typed(), l.Name+": ") }

// A Reading is what a line was understood to hold, sums in the build's currency with exactly its digits.
type Reading struct {
	Amount     string   `json:"amount,omitempty"` // the build's part
	ToGarage   string   `json:"to_garage,omitempty"`
	Category   string   `json:"category,omitempty"`
	Stage      string   `json:"stage,omitempty"`
	Part       string   `json:"part,omitempty"`
	Supplier   string   `json:"supplier,omitempty"`
	Minutes    int      `json:"minutes,omitempty"` // of person time
	Kind       string   `json:"kind,omitempty"`
	Severity   string   `json:"severity,omitempty"`
	ID         string   `json:"id,omitempty"`
	Opens      string   `json:"opens,omitempty"` // ids; its words where a snag has none
	Clears     string   `json:"clears,omitempty"`
	MakesDue   []string `json:"makes_due,omitempty"`
	System     string   `json:"system,omitempty"`
	HiddenFrom []string `json:"hidden_from,omitempty"`
}

// Between sets the pieces of a line's words apart.
const Between = " · "

// Of reads every line that counts in the state, in order, and tells what is hidden from those audiences.
func Of(st *state.State, kept []string) []*Line { return OfNote(st, kept, "") }

// OfNote reads the lines of one note, by its path; "" for all.
func OfNote(st *state.State, kept []string, path string) []*Line {
	r := &reader{st: st, kept: kept, meant: meanings(st), happened: map[place][]happening{}}
	for _, s := range st.Snags {
		for _, e := range s.Events {
			at := placeOf(e.Span)
			r.happened[at] = append(r.happened[at], happening{e.What, s})
		}
	}
	if card := st.Build.Card.Note; path == "" || path == card.File.Path {
		r.note(card, nil)
	}
	for _, s := range st.Sessions {
		if path == "" || path == s.Path {
			r.note(s.Note, s)
		}
	}
	return r.lines
}

type reader struct {
	st       *state.State
	kept     []string
	meant    map[*note.Line]any // what the build has made of a line
	happened map[place][]happening
	lines    []*Line
}

// A happening is what a line did to one snag.
type happening struct {
	what fact.EventKind
	*state.Snag
}

// A place is where a span begins.
type place struct {
	file *source.File
	at   int
}

func placeOf(s source.Span) place { return place{s.File, int(s.Start)} }

// meanings are what the build has made of its lines.
func meanings(st *state.State) map[*note.Line]any {
	m, b := map[*note.Line]any{}, st.Build
	meaning(m, b.Money, func(x *journal.Money) *note.Line { return x.Line })
	meaning(m, b.Work, func(x *journal.Work) *note.Line { return x.Line })
	meaning(m, b.PartLines, func(x *journal.PartLine) *note.Line { return x.Line })
	meaning(m, b.Checks, func(x *journal.CheckLine) *note.Line { return x.Line })
	meaning(m, slices.Concat(b.Acts, b.Asides, b.OfReadings), func(x *journal.Act) *note.Line { return x.Line })
	meaning(m, b.Quotes, func(x *journal.Quote) *note.Line { return x.Line })
	meaning(m, b.Sales, func(x *journal.Sale) *note.Line { return x.Line })
	for _, d := range b.Donors {
		meaning(m, d.Money, func(x *journal.Money) *note.Line { return x.Line })
	}
	limits := map[string]note.Limits{}
	for _, x := range b.Readings {
		judged := *x
		judged.Limits = x.Limits.After(limits[x.Name])
		limits[x.Name], m[x.Line] = judged.Limits, &judged
	}
	return m
}

func meaning[T any](m map[*note.Line]any, list []*T, line func(*T) *note.Line) {
	for _, x := range list {
		m[line(x)] = x
	}
}

// note reads one note. The job card is of no session.
func (r *reader) note(n *note.Note, s *journal.Session) {
	first := len(r.lines)
	for _, l := range n.Lines {
		r.line(l, s)
	}
	for _, it := range n.Items {
		r.line(it.Line, s)
	}
	for _, sc := range n.Scans {
		r.scan(sc, s)
	}
	slices.SortStableFunc(r.lines[first:], func(a, b *Line) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
}

// line reads one line of the front matter, or an item.
func (r *reader) line(l *note.Line, s *journal.Session) {
	out := &Line{Span: l.Text.Whole(), Key: l.Kind.Key, Name: l.Name}
	r.lines = append(r.lines, out)
	if out.LeftOut = r.st.Build.LeftOut(l); out.LeftOut {
		out.Words = "left out: it holds a mistake"
		return
	}
	t := &telling{reader: r, Reading: &out.Reading, line: l, said: map[string]bool{"sure": true, "private": true}}
	if say := tellers[l.Kind.Key]; say != nil {
		say(t)
	} else {
		t.plainly()
	}
	t.effects(r.happened[placeOf(l.HeadSpan())])
	t.clauses()
	if s != nil && (s.Private || l.Has("private")) {
		t.hidden()
	}
	out.Words = strings.Join(t.pieces, Between)
}

// scan reads a fault scan: the line that begins it, then each of its codes.
func (r *reader) scan(sc *note.Scan, s *journal.Session) {
	tell := func(at source.Span, name string, pieces ...string) {
		out := &Line{Span: at, Key: "scan", Name: name}
		t := &telling{reader: r, Reading: &out.Reading, pieces: pieces}
		t.effects(r.happened[placeOf(at)])
		if s.Private {
			t.hidden()
		}
		out.Words = strings.Join(t.pieces, Between)
		r.lines = append(r.lines, out)
	}
	tell(sc.Span, sc.Name, pick.Either(sc.NoFaults, "no faults in ", "faults in ")+sc.Name)
	for _, c := range sc.Codes {
		tell(c.Span, sc.Name, strings.TrimSpace(c.Code+" "+c.Words))
	}
}

// effects tell what the line does to snags.
func (t *telling) effects(list []happening) {
	var opens, clears []string
	for _, h := range list {
		name := cmp.Or(h.ID, h.PlainWords())
		switch {
		case h.what == fact.Cleared:
			clears = append(clears, name)
		case t.line != nil && t.line.Kind.Key != "checks" && h.FromWork():
			t.MakesDue = append(t.MakesDue, name)
		case h.what == fact.Opened, h.what == fact.Reopened:
			opens = append(opens, name)
			t.Severity = h.Severity.String()
		}
	}
	t.Opens, t.Clears = strings.Join(opens, ", "), strings.Join(clears, ", ")
	if len(t.MakesDue) > 0 {
		slices.Sort(t.MakesDue)
		t.MakesDue = slices.Compact(t.MakesDue)
		due := strings.Join(t.MakesDue, ", ") + pick.Either(len(t.MakesDue) > 1, " fall due", " falls due")
		if len(t.pieces) > 0 {
			t.pieces[0] += " → " + due
		} else {
			t.say(due)
		}
	}
	switch {
	case t.Opens == "" && t.Clears == "":
		return
	case t.Opens == t.Clears:
		t.say("opened and cleared here: " + t.Opens)
	case t.Opens != "":
		t.say("opens " + t.Opens)
		fallthrough
	default:
		if t.Clears != "" {
			t.say("clears " + t.Clears)
		}
	}
	for _, h := range list {
		if t.Opens != "" && t.Clears == "" && (h.what == fact.Opened || h.what == fact.Reopened) {
			t.say(stops(h.Snag))
			return
		}
	}
}

// stops tells what a snag stands in the way of while it is open.
func stops(s *state.Snag) string {
	switch {
	case s.ToDrive == note.Dangerous:
		return "stops driving and the sale"
	case s.Kind == "temporary", s.Severity >= note.Major, s.Source == fact.FromSurcharge:
		return "stops the sale"
	case s.Disclose:
		return "the buyer will be told"
	}
	return "to be cleared or disclosed before the sale"
}
