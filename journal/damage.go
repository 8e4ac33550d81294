package journal

import (
	"slices"

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

// Fired are all that have fired, each once.
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
