package journal

import (
	"cmp"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// NoUntil is the flaw of papers that do not say how long they hold.
const NoUntil source.Flaw = "no-until"

// usualWarning is how many days before its last day a paper is listed.
const usualWarning = 14

// A Paper is something that runs out, as one line tells it.
type Paper struct {
	Session *Session // nil on the job card
	Line    *note.Line
	Name    string
	At      source.Span // where it is named
	Until   measure.Date
	Warn    int   // days before
	Road    *bool // it may be driven with it; nil where nothing is said
	Private bool
}

// Since is the day from which the line holds; 0 on the job card.
func (p *Paper) Since() measure.Date {
	if p.Session == nil {
		return 0
	}
	return p.Session.Date
}

// ID is the id of the snag that it opens before it runs out. Capitals make no other paper.
func (p *Paper) ID() string { return PaperID(p.Name) }

// PaperID is the id of the snag of the paper of that name.
func PaperID(name string) string { return "paper-" + cmp.Or(note.SuggestID(name), name) }

func addPaper(b *Build, s *Session, l *note.Line) {
	p := &Paper{Session: s, Line: l, Name: l.Name, At: l.NameSpan(), Warn: usualWarning, Private: l.Has("private") || s != nil && s.Private}
	note.Set(&p.Warn, l, "warn")
	note.SetPointer(&p.Road, l, "road")
	var ok bool
	if p.Until, ok = note.Arg[measure.Date](l, "until"); !ok {
		b.reject(l, source.Fault{Flaw: NoUntil, Span: l.NameSpan(), Word: l.Name})
		return
	}
	b.Papers = append(b.Papers, p)
}
