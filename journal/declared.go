package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// A Damage is what was hit in one place, as the job card tells it.
type Damage struct {
	Line    *note.Line
	Place   string
	Words   string
	Systems []string
	Fired   []Fired
	Flood   bool
}

// Fired is an airbag or tensioner that has fired.
type Fired struct {
	Part string
	Span source.Span
}

const restraints = "restraints"

func cardDamage(b *Build, c *Card, l *note.Line) {
	d := &Damage{Line: l, Place: l.Name, Words: l.Words().S, Flood: l.Has("flood")}
	d.Systems, _ = note.Arg[[]string](l, "system")
	for _, clause := range l.Clauses {
		if part, ok := clause.Value.(string); ok && clause.Word == "fired" {
			d.Fired = append(d.Fired, Fired{part, clause.Arg.Whole()})
		}
	}
	if d.Fired != nil && !slices.Contains(d.Systems, restraints) {
		d.Systems = append(slices.Clone(d.Systems), restraints)
	}
	c.Damage = append(c.Damage, d)
}

func (c *Card) Fired() []Fired {
	var list []Fired
	for _, d := range c.Damage {
		for _, f := range d.Fired {
			if !slices.ContainsFunc(list, func(o Fired) bool { return o.Part == f.Part }) {
				list = append(list, f)
			}
		}
	}
	return list
}

// declareFired takes in what has fired: parts that are needed, before any line names them.
func declareFired(b *Build) {
	for _, f := range b.Card.Fired() {
		if b.ids[f.Part] == nil {
			b.identify(f.Part, &identity{sort: partSort, span: f.Span, fired: true})
		}
	}
}

// FiredID is the id of the item that tells of something fired which no new part replaces.
func FiredID(part string) string { return "fired-" + part }

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
