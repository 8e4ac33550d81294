package journal

import (
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// FastenerAlone is the flaw of a fastener of the card that is of no part.
const FastenerAlone source.Flaw = "fastener-alone"

// checkFasteners rejects fasteners of a part that there is not, and takes in the ids of the others.
func checkFasteners(b *Build) {
	sound := b.Card.Fasteners[:0]
	for _, f := range b.Card.Fasteners {
		other := b.ids[f.ID]
		switch {
		case len(b.Sessions) > 0 && !b.isPart(f.Part): // without notes nobody can name a part
			b.reject(f.Line, source.Fault{Flaw: UnknownPart, Span: f.Line.Clause("of").Arg.Whole(), Word: f.Part, Near: b.near.parts.Meant(f.Part)})
		case other != nil:
			b.reject(f.Line, source.Fault{Flaw: IDTaken, Span: f.Line.NameSpan(), Word: f.ID, Why: other.sort, Other: other.span})
		default:
			b.identify(f.ID, &identity{sort: fastenerSort, span: f.Line.NameSpan()})
			sound = append(sound, f)
		}
	}
	b.Card.Fasteners = sound
}

func addTightening(b *Build, s *Session, l *note.Line) {
	t := &Tightening{Session: s, Line: l, ID: l.Name, Fastening: l.Head.(note.Fastening), Words: l.Words().S, New: l.Has("new"), RideHeight: l.Has("at ride height"), Private: s.Private || l.Has("private")}
	note.Set(&t.By, l, "by")
	b.Tightenings = append(b.Tightenings, t)
}

// Lacks says what a tightening lacks of what the card asks for; nothing where it is as written.
func (f *Fastener) Lacks(t *Tightening) speech.Phrase {
	switch {
	case t.Torque.Compare(*f.Min) < 0 || t.Torque.Compare(*f.Max) > 0:
		return speech.Of("the torque is not between %s and %s", *f.Min, *f.Max)
	case len(t.Angles) < len(f.Angles):
		return speech.Of("an angle is missing")
	case len(t.Angles) > len(f.Angles):
		return speech.Of("there is an angle too many")
	}
	for i, a := range f.Angles {
		if off := t.Angles[i].In(a.Unit).Sub(a.Value).Abs(); off.Mul(hundred).GreaterThan(a.Value.Mul(f.Percent)) {
			return speech.Of("the angle is not %s", a)
		}
	}
	switch {
	case f.SingleUse && !t.New:
		return speech.Of("single use, but not recorded as new")
	case f.RideHeight && !t.RideHeight:
		return speech.Of("not recorded as tightened at ride height")
	}
	return speech.Phrase{}
}

var hundred = decimal.NewFromInt(100)

func (c *Card) FastenersOf(part string) []*Fastener {
	return pick.Where(c.Fasteners, func(f *Fastener) bool { return f.Part == part })
}
