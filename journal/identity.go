package journal

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// Parts, snags and what follows by itself share one name space: `waits for` and a tick mean one thing.

type identity struct {
	sort  string      // part, snag, or what a derived item comes from
	span  source.Span // where it was first named
	stage string      // a part's, as far as its lines name one
	fired bool        // a part that the card says has fired, and that no line has described so far
}

const (
	partSort      = "part"
	snagSort      = "snag"
	checkSort     = "check"
	readingSort   = "reading"
	scanSort      = "scan"
	surchargeSort = "surcharge"
	paperSort     = "paper"
	fastenerSort  = "fastener"
	damageSort    = "fired part"
	donorSort     = "donor"
)

// isPart tells whether a line may name that part: any, where no note was read that could declare it.
func (b *Build) isPart(id string) bool {
	known := b.ids[id]
	return known != nil && known.sort == partSort || b.badID[id] || b.cardAlone
}

// taken returns what other than a snag has the id, or nil.
func (b *Build) taken(id string) *identity {
	if i := b.ids[id]; i != nil && i.sort != snagSort {
		return i
	}
	return nil
}

func (b *Build) identify(id string, i *identity) {
	b.ids[id] = i
	b.near.known.Add(id)
	if i.sort == partSort {
		b.near.parts.Add(id)
	}
	b.near.unjoined = append(b.near.unjoined, id)
}

type nearNames struct {
	known    near.Index // all of b.ids
	parts    near.Index
	stages   near.Index
	openings near.Index        // what task-list items open, sound or not
	unjoined []string          // ids that joined lacks so far: it is seldom asked
	joined   map[string]string // the ids with hyphens by what they are without
}

// nearID returns the known id nearest to a word, or "". One without a hyphen may lack only hyphens.
func (b *Build) nearID(word string) string {
	lower := strings.ToLower(word)
	if !strings.Contains(lower, "-") {
		for _, id := range b.near.unjoined {
			if strings.Contains(id, "-") {
				b.near.joined[strings.ReplaceAll(id, "-", "")] = id
			}
		}
		b.near.unjoined = nil
		return b.near.joined[strings.ReplaceAll(lower, "_", "")]
	}
	return b.near.known.Nearest(lower)
}

// ReadingID is what is outstanding where a reading is outside its limits.
func ReadingID(name string) string { return "reading-" + name }

// isCode tells whether an id is that of a fault code but for its capitals.
func (b *Build) isCode(id string) bool { return b.ids[id] == nil && b.near.known.Nearest(id) == id }

// nearAny is nearID over all that is opened anywhere as well, with those of which it is the beginning.
func (b *Build) nearAny(word string) []string {
	if like := b.near.known.Meant(word); like != nil {
		return like
	}
	return b.near.openings.Meant(word)
}

func oneOrNone(word string) []string {
	if word == "" {
		return nil
	}
	return []string{word}
}

// keepSnag rejects a line that takes the id of an earlier snag: it would make a temporary fix forgotten.
func keepSnag(b *Build, s *Session, l *note.Line, id string, at source.Span) {
	o := b.openings[id]
	if o == nil || b.LeftOut(o.Line) || cmp.Or(cmp.Compare(o.Session.Date, s.Date), comparePaths(o.Session.Path, s.Path)) >= 0 {
		return
	}
	if !b.LeftOut(l) && !b.snagFirst[id] { // said once
		b.reject(l, source.Fault{Flaw: IDTaken, Span: at, Word: id, Why: snagSort, Other: o.IDSpan})
	}
	b.leaveOut(l)
	b.snagFirst[id] = true
}

// declareDerived takes in the ids of what follows by itself from sound lines.
func declareDerived(b *Build) {
	add := func(id, sort string, at source.Span) {
		if b.ids[id] == nil {
			b.identify(id, &identity{sort: sort, span: at})
		}
	}
	reserve := func(s *Session, l *note.Line, id, sort string, at source.Span) {
		if b.ids[id] == nil {
			if keepSnag(b, s, l, id, at); b.LeftOut(l) {
				return
			}
		}
		if other := b.ids[id]; other != nil && other.sort != sort {
			b.reject(l, source.Fault{Flaw: IDTaken, Span: at, Word: id, Why: other.sort, Other: other.span})
			return
		}
		add(id, sort, at)
	}
	for _, d := range b.Donors {
		for _, pl := range b.PartLines {
			if d.Flood && said(pl.Line, "donor") == d.Name {
				add(FloodedID(pl.ID), "part that stood in water", pl.Line.NameSpan())
			}
		}
	}
	for _, p := range b.Papers {
		add(p.ID(), paperSort, p.At)
	}
	for _, f := range b.Card.Fired() {
		add(FiredID(f.Part), damageSort, f.Span)
	}
	asked := func(s *Session, l *note.Line) {
		names, _ := note.Arg[note.Asks](l, "asks for")
		for _, name := range names {
			if !l.Bad {
				reserve(s, l, name, checkSort, l.Clause("asks for").Arg.Whole())
			}
		}
	}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			surcharge, part := (*note.Found)(nil), ""
			if l.Kind.Key == "cost" {
				surcharge, part = l.Clause("surcharge"), said(l, "for")
			}
			switch {
			case surcharge != nil && part != "" && b.LeftOut(l):
				b.badID[SurchargeID(part)] = true
			case b.LeftOut(l):
			case surcharge != nil && part != "":
				reserve(s, l, SurchargeID(part), surchargeSort, surcharge.Span)
			case l.Kind.Key == "inspection" && l.Has("until"):
				reserve(s, l, PaperID("inspection"), paperSort, l.Clause("until").Span)
			case l.Kind.Key == "papers":
				reserve(s, l, PaperID(l.Name), paperSort, l.NameSpan())
			case l.Kind.Key == "readings":
				reserve(s, l, ReadingID(l.Name), readingSort, l.NameSpan())
			case l.Kind.Key == "checks" && l.Head == "failed":
				reserve(s, l, l.Name, checkSort, l.NameSpan())
			}
			if l.Kind.Key == "parts" {
				asked(s, l)
			}
		}
		for _, it := range s.Note.Items {
			asked(s, it.Line)
		}
		for _, sc := range s.Note.Scans {
			for _, c := range sc.Codes {
				add(fact.ScanID(sc.Name, c.Code), scanSort, c.Span)
			}
		}
	}
}

// SurchargeID is the id of the item that a surcharge on a part opens.
func SurchargeID(part string) string { return part + "-surcharge" }

func hasSpace(s string) bool { return strings.ContainsAny(s, " \t") }

// suggestID makes an id for a snag out of the first words that carry meaning.
func suggestID(words string) string {
	var kept []string
	for _, w := range strings.Fields(note.PlainWords(words)) {
		if w = note.SuggestID(w); len(w) > 2 && !slices.Contains([]string{"the", "and", "with", "until", "for", "has", "was"}, w) {
			kept = append(kept, w)
		}
		if len(kept) == 2 {
			return strings.Join(kept, "-")
		}
	}
	return strings.Join(append(kept, "fix"), "-")
}

// vinLength is that of ISO 3779. Older and home-built vehicles have other numbers, which are not judged.
const vinLength = 17

// checkVIN returns the flaw of a number and the byte it stands at; no flaw for one of another length.
func checkVIN(vin string) (source.Flaw, int) {
	capitals := strings.ToUpper(vin)
	if len(vin) != vinLength || len(capitals) != vinLength { // the latter where letters of several bytes change
		return "", 0
	}
	vin = capitals
	if at := strings.IndexAny(vin, "IOQ"); at >= 0 {
		return BadVIN, at
	}
	for i := range vin {
		if vinValue(vin[i]) < 0 {
			return "", 0
		}
	}
	const position = 8 // the ninth character
	if vinCheckDigit(vin) != vin[position] {
		return VINCheckDigit, position
	}
	return "", 0
}

// vinCheckDigit works out the ninth character as 49 CFR 565.15(c) does.
func vinCheckDigit(vin string) byte {
	weights := [vinLength]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}
	sum := 0
	for i, w := range weights {
		sum += w * vinValue(vin[i])
	}
	return "0123456789X"[sum%11]
}

// vinValue is the number a character stands for, 49 CFR 565.15(c) table III; -1 for others.
func vinValue(c byte) int {
	if c >= '0' && c <= '9' {
		return int(c - '0')
	}
	const letters = "ABCDEFGHJKLMNPRSTUVWXYZ"
	const values = "12345678123457923456789"
	if i := strings.IndexByte(letters, c); i >= 0 {
		return int(values[i] - '0')
	}
	return -1
}
