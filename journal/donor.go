package journal

import (
	"cmp"
	"path"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/fact"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	UnknownDonor source.Flaw = "unknown-donor"
	NoWorth      source.Flaw = "no-worth"
	DonorRefused source.Flaw = "donor-refused"
)

func readDonors(b *Build) {
	for _, l := range b.Card.Note.Lines {
		if l.Kind.Key != "donors" || b.donor(l.Name) != nil {
			continue
		}
		d := &Donor{Name: l.Name, Line: l, Category: said(l, "category"), Flood: l.Has("flood"), Lost: b.LeftOut(l)}
		note.Set(&d.On, l, "on")
		note.Set(&d.Holds, l, "worth")
		if !d.Lost {
			sum, ok := b.workOut(l, false)
			d.Price, d.Lost = sum.Whole, !ok
		}
		b.Donors = append(b.Donors, d)
	}
}

// A provenance is what all sound lines of a part say of where it came from.
type provenance struct {
	worth   bool
	donor   bool
	systems []string
}

func provenancesOf(b *Build) map[string]*provenance {
	known := map[string]*provenance{}
	if !slices.ContainsFunc(b.ofParts, func(l sessionLine) bool { return l.Has("worth") || l.Has("donor") }) {
		return known
	}
	for _, l := range b.ofParts {
		if b.LeftOut(l.Line) {
			continue
		}
		p := known[l.Name]
		if p == nil {
			p = &provenance{}
			known[l.Name] = p
		}
		p.worth, p.donor = p.worth || l.Has("worth"), p.donor || l.Has("donor")
		p.systems = append(p.systems, cmp.Or(said(l.Line, "system"), b.SystemOf(cmp.Or(said(l.Line, "stage"), l.in.Stage))))
	}
	return known
}

// judgeDonor rejects a line of a part whose donor does not allow for it, or is none.
func judgeDonor(b *Build, l *note.Line, p *provenance) {
	clause, worth := l.Clause("donor"), l.Clause("worth")
	if clause == nil {
		if worth != nil && !p.donor {
			b.reject(l, source.Fault{Flaw: UnknownDonor, Span: worth.Span, Word: ""})
		}
		return
	}
	names := pick.Map(b.Donors, func(d *Donor) string { return d.Name })
	d, name := b.donor(clause.Arg.S), clause.Arg.S
	salvage := (*Salvage)(nil)
	if d != nil {
		salvage = SalvageOf(d.Category)
	}
	reject := func(flaw source.Flaw, why string) {
		b.reject(l, source.Fault{Flaw: flaw, Span: clause.Arg.Whole(), Word: name, Near: names, Why: why})
	}
	switch {
	case d != nil && d.Lost:
		b.leaveOut(l)
	case d == nil && (p.worth || note.IsID(name) && near.Nearest(name, names) != ""):
		reject(UnknownDonor, "")
	case d == nil: // words for a vehicle that nobody keeps account of
	case salvage != nil && salvage.Letter == "A":
		reject(DonorRefused, "no part")
	case salvage != nil && salvage.Letter == "B" && slices.Contains(p.systems, "restraints"):
		reject(DonorRefused, "nothing of restraints")
	case salvage != nil && salvage.Letter == "B" && slices.Contains(p.systems, "structure"):
		reject(DonorRefused, "nothing of structure")
	case !p.worth && fact.Reached(l.Head.(string), "arrived"):
		reject(NoWorth, "")
	}
}

// lacksDonor tells whether something comes from, or was paid for, a donor that only the garage may know.
func (b *Build) lacksDonor() bool {
	for _, l := range b.ofParts {
		if from := said(l.Line, "donor"); note.IsID(from) && b.donor(from) == nil {
			return true
		}
	}
	return slices.ContainsFunc(b.Faults, func(f source.Fault) bool { return f.Flaw == UnknownPart })
}

// takingsOf tells every donor which parts were taken from it.
func takingsOf(b *Build) {
	if len(b.Donors) == 0 {
		return
	}
	type round struct {
		first *PartLine
		state string
		donor *Donor
		taken int // in the donor's list, from 1
		worth decimal.Decimal
	}
	parts := map[string]*round{}
	for _, pl := range b.PartLines {
		r := parts[pl.ID]
		if r == nil {
			r = &round{first: pl}
			parts[pl.ID] = r
		}
		if r.state != "" && fact.EndsRound(r.state) && !fact.EndsRound(pl.State) {
			*r = round{first: r.first}
		}
		r.state = pl.State
		if name := said(pl.Line, "donor"); name != "" && r.taken == 0 {
			r.donor = b.donor(name)
		}
		note.Set(&r.worth, pl.Line, "worth")
		switch {
		case r.donor == nil:
		case r.taken > 0:
			r.donor.Taken[r.taken-1].Worth = r.worth
		case fact.Reached(pl.State, "arrived"):
			at := path.Join(b.inGarage, strings.TrimPrefix(strings.TrimPrefix(r.first.Session.Path, b.Path), "/"))
			r.donor.Taken = append(r.donor.Taken, Taking{b, pl, r.worth, r.first.Session.Date, at, r.first.Line.NameSpan().Start})
			r.taken = len(r.donor.Taken)
		}
	}
	for _, d := range b.Donors {
		d.order()
	}
}

func (d *Donor) order() {
	slices.SortStableFunc(d.Taken, func(x, y Taking) int {
		return cmp.Or(cmp.Compare(x.first, y.first), comparePaths(x.firstAt, y.firstAt), cmp.Compare(x.firstOn, y.firstOn))
	})
}

// without leaves out what a build of the garage took and paid, whose notes are read by themselves.
func (d *Donor) without(b *Build) *Donor {
	c := *d
	c.Taken = slices.DeleteFunc(slices.Clone(d.Taken), func(t Taking) bool { return t.Build == b })
	c.Money = slices.DeleteFunc(slices.Clone(d.Money), func(m *Money) bool { return slices.Contains(b.Sessions, m.Session) })
	return &c
}

// A Salvage is a category that an insurer gives to a vehicle it has written off.
type Salvage struct {
	Letter string
	// Never says that the vehicle may not return to the road, whatever is mended.
	Never bool
	Means string
}

// salvages are those of the ABI Code of Practice for Motor Vehicle Salvage, as GOV.UK tells them; C and D before October 2017.
var salvages = []Salvage{
	{"A", true, "the whole vehicle has to be crushed"},
	{"B", true, "the body shell has to be crushed; other parts may be used again, but no airbag or seat belt"},
	{"S", false, "it may return to the road once its structure is mended"},
	{"N", false, "it may return to the road once it is mended"},
	{"C", false, "it may return to the road once it is mended"},
	{"D", false, "it may return to the road once it is mended"},
}

// SalvageOf finds the category in words such as "B" or "cat. B, burnt"; nil where they begin with none.
func SalvageOf(text string) *Salvage {
	words := strings.FieldsFunc(strings.ToUpper(text), func(r rune) bool { return !unicode.IsLetter(r) })
	for len(words) > 0 && slices.Contains([]string{"CAT", "CATEGORY", "ABI"}, words[0]) {
		words = words[1:]
	}
	for i := range salvages {
		if len(words) > 0 && words[0] == salvages[i].Letter {
			return &salvages[i]
		}
	}
	return nil
}
