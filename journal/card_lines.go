package journal

import (
	"cmp"
	"math/big"
	"path"
	"slices"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// The lines of the job card.

func newCard(b *Build, n *note.Note, exists bool) *Card {
	c := &Card{Note: n, Exists: exists, Rates: map[string]decimal.Decimal{},
		Confidence: decimal.NewFromInt(90), Increment: decimal.NewFromInt(1)}
	for _, s := range publicSettings {
		s.set(&c.Public, s.words[0])
	}
	b.Faults = append(b.Faults, n.Faults...)
	c.Currency = cardCurrency(n)
	if l := n.Line("vat"); l != nil { // before the fees that add it, wherever they stand
		cardLines["vat"](b, c, l)
	}
	rejectRepeats(b, n)
	for _, l := range n.Lines {
		// A stage in error still has its name, or every note in that stage would be reported as well.
		if set := cardLines[l.Kind.Key]; set != nil && (!b.LeftOut(l) || l.Kind.Key == "stages") {
			set(b, c, l)
		}
	}
	timeForHolding(b, c)
	if !exists {
		c.Name = path.Base(b.Path)
		return c
	}
	requireKeys(b, n, "build")
	return c
}

// requireKeys reports a card that lacks its name or its currency.
func requireKeys(b *Build, n *note.Note, name string) {
	if n.Field(name) == nil {
		b.fault(source.Fault{Flaw: MissingName, Span: n.File.Span(0, 0)})
	}
	if n.Field("currency") == nil {
		b.fault(source.Fault{Flaw: MissingCurrency, Span: n.File.Span(0, 0)})
	}
}

// rejectRepeats rejects a second line for what can be said only once of a name.
func rejectRepeats(b *Build, n *note.Note) {
	first := map[[2]string]*note.Line{}
	for _, l := range n.Lines {
		switch name := [2]string{l.Kind.Key, l.Name}; l.Kind.Key {
		case "rates", "stages", "public", "damage", "fasteners", "holding", "offers", "donors":
			if o := first[name]; o != nil {
				b.reject(l, source.Fault{Flaw: note.RepeatedName, Span: l.NameSpan(), Word: l.Name, Other: o.NameSpan()})
			} else {
				first[name] = l
			}
		}
	}
}

var cardLines = map[string]func(*Build, *Card, *note.Line){
	"build":         func(_ *Build, c *Card, l *note.Line) { c.Name = l.Text.S },
	"vat":           func(_ *Build, c *Card, l *note.Line) { v := l.Head.(decimal.Decimal); c.VAT = &v },
	"resale":        func(_ *Build, c *Card, l *note.Line) { v := l.Head.([3]decimal.Decimal); c.Resale = &v },
	"profit":        func(_ *Build, c *Card, l *note.Line) { c.Profit = l.Head.(decimal.Decimal) },
	"confidence":    func(_ *Build, c *Card, l *note.Line) { c.Confidence = l.Head.(decimal.Decimal) },
	"bid increment": func(_ *Build, c *Card, l *note.Line) { c.Increment = l.Head.(decimal.Decimal) },
	"vehicle":       cardDetail,
	"rates":         cardRate,
	"fees":          cardFee,
	"stages":        cardStage,
	"due checks":    cardDueCheck,
	"public":        cardPublic,
	"hourly":        func(_ *Build, c *Card, l *note.Line) { v := l.Head.(decimal.Decimal); c.Hourly = &v },
	"holding": func(_ *Build, c *Card, l *note.Line) {
		c.Holding = new(big.Rat).Add(cmp.Or(c.Holding, new(big.Rat)), l.Head.(*big.Rat))
	},
	"weeks":     func(_ *Build, c *Card, l *note.Line) { v := [3]decimal.Decimal(l.Head.(note.Weeks)); c.Weeks = &v },
	"pace":      func(_ *Build, c *Card, l *note.Line) { c.Pace = l.Head.(*big.Rat) },
	"away":      func(_ *Build, c *Card, l *note.Line) { c.Away = measure.Merge(append(c.Away, l.Head.(measure.Span))) },
	"worst":     func(_ *Build, c *Card, l *note.Line) { c.OneInTen = l.Head.(string) != note.WorstCases[0] },
	"offers":    cardOffer,
	"papers":    func(b *Build, _ *Card, l *note.Line) { addPaper(b, nil, l) },
	"damage":    cardDamage,
	"fasteners": cardFastener,
}

func cardDetail(b *Build, c *Card, l *note.Line) {
	c.Vehicle = append(c.Vehicle, Detail{l.Name, l.Text.S, l})
	if (Detail{Name: l.Name}).Kind() != VIN {
		return
	}
	switch flaw, at := checkVIN(l.Text.S); flaw {
	case BadVIN:
		b.reject(l, source.Fault{Flaw: flaw, Span: l.Text.Span(at, at+1), Word: l.Text.S[at : at+1]})
	case VINCheckDigit:
		b.fault(source.Fault{Flaw: flaw, Span: l.Text.Span(at, at+1), Word: l.Text.S[at : at+1], Near: []string{string(vinCheckDigit(strings.ToUpper(l.Text.S)))}})
	}
}

func cardRate(b *Build, c *Card, l *note.Line) {
	if l.Name == c.Currency.Code {
		b.reject(l, source.Fault{Flaw: OwnRate, Span: l.NameSpan(), Word: l.Name})
		return
	}
	c.Rates[l.Name] = l.Head.(decimal.Decimal)
}

func cardFee(b *Build, c *Card, l *note.Line) {
	f := Fee{Name: l.Name, Bands: l.Head.([]note.Band)}
	if l.Has("plus vat") {
		vat, ok := b.vat(c, l, "plus vat")
		if !ok {
			return
		}
		f.VAT = &vat
	}
	c.Fees = append(c.Fees, f)
}

func cardStage(b *Build, c *Card, l *note.Line) {
	if slices.ContainsFunc(c.Stages, func(s *Stage) bool { return s.Name == l.Name }) {
		return // the first of several of one name is meant
	}
	s := &Stage{Name: l.Name, About: l.Words().S, Purchase: l.Has("purchase")}
	note.SetPointer(&s.Budget, l, "budget")
	note.SetPointer(&s.Hours, l, "hours")
	s.System, _ = note.Arg[string](l, "system")
	// They stand side by side, so more than a letter was meant to tell them apart.
	if like := c.near.Slip(s.Name); like != "" && near.Distance(near.Folded(like), near.Folded(s.Name), 1) <= 1 {
		b.fault(source.Fault{Flaw: SimilarStage, Span: l.NameSpan(), Word: s.Name, Near: []string{like}, Help: "Take one of the two out if they are one."})
	}
	c.Stages = append(c.Stages, s)
}

func cardDueCheck(b *Build, c *Card, l *note.Line) {
	r := DueRule{Name: l.Name, Severity: cmp.Or(l.Severity(), note.Major)}
	var ok bool
	if r.Systems, ok = note.Arg[[]string](l, "after"); !ok {
		b.reject(l, source.Fault{Flaw: NoAfter, Span: l.NameSpan(), Word: l.Name})
		return
	}
	note.SetPointer(&r.Far, l, "distance")
	if r.Because, _ = note.Arg[string](l, "because"); r.Because == "" {
		r.Because = l.Words().S
	}
	c.DueRules = append(c.DueRules, r)
}

func cardPublic(b *Build, c *Card, l *note.Line) {
	at := slices.IndexFunc(publicSettings, func(s setting) bool { return s.name == l.Name })
	switch {
	case at < 0:
		names := pick.Map(publicSettings, func(s setting) string { return s.name })
		b.reject(l, source.Fault{Flaw: UnknownSetting, Span: l.NameSpan(), Word: l.Name, Near: names})
	case !slices.Contains(publicSettings[at].words, l.Text.S):
		b.reject(l, source.Fault{Flaw: UnknownSetting, Span: l.Text.Whole(), Word: l.Text.S, Near: publicSettings[at].words})
	default:
		publicSettings[at].set(&c.Public, l.Text.S)
	}
}

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

func cardFastener(b *Build, c *Card, l *note.Line) {
	f := &Fastener{Line: l, ID: l.Name, Fastening: l.Head.(note.Fastening), Words: l.Words().S, SingleUse: l.Has("single use"), RideHeight: l.Has("at ride height")}
	var ok bool
	if f.Part, ok = note.Arg[string](l, "of"); !ok {
		b.reject(l, source.Fault{Flaw: FastenerAlone, Span: l.NameSpan(), Word: l.Name})
		return
	}
	f.Tolerance = note.ToleranceOf(f.Fastening)
	if own := l.Choice("tolerance"); own != nil {
		f.Tolerance, _ = own.Value.(note.Tolerance)
	}
	note.Set(&f.System, l, "system")
	c.Fasteners = append(c.Fasteners, f)
}

// timeForHolding leaves out what holding costs where nothing says for how long, and says so once.
func timeForHolding(b *Build, c *Card) {
	if c.Holding == nil || c.Weeks != nil || c.Pace != nil {
		return
	}
	told := slices.ContainsFunc(c.Note.Fields, func(f note.Field) bool { return near.Nearest(f.Key, []string{"weeks", "pace"}) != "" })
	for _, l := range c.Note.Lines {
		if l.Kind.Key != "holding" || b.LeftOut(l) {
			continue
		}
		if b.leaveOut(l); !told {
			b.fault(source.Fault{Flaw: HoldingWithoutTime, Span: l.NameSpan(), Word: l.Name})
			told = true
		}
	}
	c.Holding = nil
}

func cardOffer(b *Build, c *Card, l *note.Line) {
	o := Offer{Name: l.Name, Money: l.Head.([3]decimal.Decimal), From: said(l, "from"), Line: l}
	o.Hours, _ = note.Arg[[3]measure.Minutes](l, "hours")
	o.Until, _ = note.Arg[measure.Date](l, "until")
	c.Offers = append(c.Offers, o)
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
