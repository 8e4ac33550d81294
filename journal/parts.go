package journal

import (
	"regexp"
	"strings"
	"unicode"

	"guidecoat/journal/fact"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

const (
	UndescribedPart source.Flaw = "undescribed-part"
	PartBackwards   source.Flaw = "part-backwards"
	IDTaken         source.Flaw = "id-taken"
	NearPart        source.Flaw = "near-part"
)

// A PartLine is one line in which a part changes state.
type PartLine struct {
	Session *Session
	Line    *note.Line
	ID      string
	State   string
	// Description is what the declaring line calls the part, "" where it calls it nothing.
	Description string
	Remark      string
	// Asks are the checks that the fitting asks for by this line or an earlier one; nil: those of the table.
	Asks    note.Asks
	Private bool
}

type sessionLine struct {
	in *Session
	*note.Line
}

// Words that tell of a part instead of naming it begin so, or have a verb.
var (
	pointsBack = words("it they this that these those see as because since if when not maybe perhaps by until")
	aVerb      = words("is are was were isn't wasn't has have had will won't can can't could must should would needs came cannot")
	theOther   = regexp.MustCompile(`(?i)^(?:no \pL+|the (?:old|other|first|last) one)\b`)
)

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

// namesThing tells whether words can name a part. Every part is asked for, so no pattern is tried.
func namesThing(said string) bool {
	first := true
	for word := range strings.FieldsFuncSeq(said, func(r rune) bool { return r != '\'' && r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		word = strings.ToLower(word)
		short, _, _ := strings.Cut(word, "'") // it's, they're
		if aVerb[word] || aVerb[short] || first && (pointsBack[short] || (short == "no" || short == "the") && theOther.MatchString(said)) {
			return false
		}
		first = false
	}
	return said != ""
}

// declareParts reads all lines of parts, in order, before anything refers to them.
func declareParts(b *Build) {
	for _, r := range b.DueRules() { // the table of checks due comes first
		b.identify(r.Name, &identity{sort: checkSort})
	}
	declareFired(b)
	for _, d := range b.Donors {
		b.identify(d.Name, &identity{sort: donorSort, span: d.Line.NameSpan()})
	}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			if l.Kind.Key == "parts" {
				b.ofParts = append(b.ofParts, sessionLine{s, l})
			}
		}
	}
	last, known := map[string]*PartLine{}, provenancesOf(b)
	for _, x := range b.ofParts {
		if note.IsID(x.Name) {
			if !b.LeftOut(x.Line) {
				judgeDonor(b, x.Line, known[x.Name])
			}
			declarePart(b, x.in, x.Line, last)
		}
	}
	declareDerived(b)
}

func declarePart(b *Build, s *Session, l *note.Line, last map[string]*PartLine) {
	known := b.ids[l.Name]
	first := known == nil && !b.badID[l.Name]
	checkNames(b, l)
	if known != nil && known.sort != partSort {
		b.leaveOut(l)
		if !b.badID[l.Name] { // said once
			b.fault(source.Fault{Flaw: IDTaken, Span: l.NameSpan(), Word: l.Name, Why: known.sort, Other: known.span})
		}
	}
	if known == nil {
		keepSnag(b, s, l, l.Name, l.NameSpan())
	}
	if !b.LeftOut(l) && first && l.Words().S == "" {
		b.reject(l, source.Fault{Flaw: UndescribedPart, Span: l.NameSpan(), Word: l.Name, Near: oneOrNone(b.near.parts.Nearest(l.Name))})
	}
	if b.LeftOut(l) {
		b.badID[l.Name] = true
		return
	}
	if known == nil {
		if like := b.near.parts.Nearest(l.Name); like != "" && near.IsSlip(like, l.Name) {
			b.fault(source.Fault{Flaw: NearPart, Span: l.NameSpan(), Word: l.Name, Near: []string{like}})
		}
		known = &identity{sort: partSort, span: l.NameSpan()}
		b.identify(l.Name, known)
	}
	if known.fired {
		known.fired, known.span = false, l.NameSpan()
	}
	if stage, ok := note.Arg[string](l, "stage"); ok {
		known.stage = stage
	}
	p := &PartLine{Session: s, Line: l, ID: l.Name, State: l.Head.(string), Private: s.Private || l.Has("private")}
	if p.Remark = l.Words().S; known.span == l.NameSpan() && namesThing(p.Remark) {
		p.Description, p.Remark = p.Remark, ""
	}
	before := last[p.ID]
	if before != nil && !fact.Reached(p.State, before.State) && !fact.EndsRound(p.State) {
		b.fault(source.Fault{Flaw: PartBackwards, Span: l.HeadSpan(), Word: p.State, Why: before.State})
	}
	if before != nil && !fact.EndsRound(before.State) && !fact.Reached(before.State, "fitted") {
		p.Asks = before.Asks
	}
	note.Set(&p.Asks, l, "asks for")
	last[p.ID] = p
	b.PartLines = append(b.PartLines, p)
}
