package journal

import (
	"math/big"
	"path"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	MissingName     source.Flaw = "missing-name"
	MissingCurrency source.Flaw = "missing-currency"
	OwnRate         source.Flaw = "own-rate"
	UnknownSetting  source.Flaw = "unknown-setting"
	BadVIN          source.Flaw = "bad-vin"
	VINCheckDigit   source.Flaw = "vin-check-digit"
	NoAfter         source.Flaw = "no-after"
)

// A Card is the job card of a build.
type Card struct {
	Note       *note.Note
	Exists     bool // build.md is there and could be read
	Name       string
	Vehicle    []Detail
	Currency   money.Currency   // zero where the card names none
	VAT        *decimal.Decimal // percent
	Rates      map[string]decimal.Decimal
	Resale     *[3]decimal.Decimal // low, likely, high
	Profit     decimal.Decimal
	Confidence decimal.Decimal // percent
	Increment  decimal.Decimal
	Fees       []Fee
	Stages     []*Stage
	DueRules   []DueRule // its own, besides the built-in ones
	Public     Public
	Ahead
	Damage    []*Damage
	Fasteners []*Fastener

	near near.Index // the stages so far
}

// A Detail is one thing that is known of the vehicle.
type Detail struct {
	Name, Value string
	Line        *note.Line
}

type Fee struct {
	Name  string
	Bands []note.Band
	VAT   *decimal.Decimal // percent on the fee; nil: none
}

// A Stage is one part of the work with a budget of its own.
type Stage struct {
	Name     string
	About    string
	Budget   *[3]decimal.Decimal // best, likely, worst
	Hours    *[3]measure.Minutes // of one person; best, likely, worst
	System   string
	Purchase bool // what was paid for the vehicle itself
}

type Public struct {
	Money        string // nothing, work, totals or lines
	Hours        bool
	Snags        bool
	Suppliers    bool
	VIN          string // masked, no or full
	Registration bool
	Language     string // of the pages for the public and for the buyer
	Typed        string // that of the notes
}

// A setting has words, the first being the default, and what they show.
type setting struct {
	name  string
	words []string
	shows string
	set   func(p *Public, word string)
}

var publicSettings = []setting{
	{"money", []string{"work", "nothing", "totals", "lines"},
		"`work`: what the work cost, by stage, without the vehicle, the fees, forecast and profit; `totals`: every sum, with the forecast or the profit; `lines`: each line besides",
		func(p *Public, w string) { p.Money = w }},
	{"hours", []string{"yes", "no"}, "the time worked", func(p *Public, w string) { p.Hours = w == "yes" }},
	{"snags", []string{"yes", "no"}, "what is outstanding and what was cleared", func(p *Public, w string) { p.Snags = w == "yes" }},
	{"suppliers", []string{"no", "yes"}, "what stands behind `from`", func(p *Public, w string) { p.Suppliers = w == "yes" }},
	{"vin", []string{"masked", "no", "full"}, "the identification number; `masked`: its first three characters", func(p *Public, w string) { p.VIN = w }},
	{"registration", []string{"no", "yes"}, "the plate", func(p *Public, w string) { p.Registration = w == "yes" }},
	{"language", Languages, "the language of the pages for the public and the buyer: English, German, Norwegian Bokmål or French", func(p *Public, w string) { p.Language = w }},
	{"notes", Languages, "the language of your notes, which stay as typed; browsers and screen readers want to know it", func(p *Public, w string) { p.Typed = w }},
}

// Languages are those that pages are made in, by their codes (BCP 47).
var Languages = []string{"en", "de", "nb", "fr"}

// Detail returns what the card says of the vehicle under that name, in any case.
func (c *Card) Detail(name string) (Detail, bool) {
	for _, d := range c.Vehicle {
		if strings.EqualFold(d.Name, name) || d.Kind() == name {
			return d, true
		}
	}
	return Detail{}, false
}

// The kinds of detail that are not for everybody.
const (
	VIN          = "vin"
	Registration = "registration"
	Contact      = "contact" // whom a buyer can ask
)

// kindsOfDetail are the names that builders give them, without spaces and dots.
var kindsOfDetail = map[string][]string{
	VIN:          {"vin", "vinnumber", "vehicleidentificationnumber", "chassis", "chassisno", "chassisnumber", "frameno", "framenumber"},
	Registration: {"registration", "registrationno", "registrationnumber", "registrationmark", "reg", "regno", "regnumber", "plate", "platenumber", "numberplate", "licenceplate", "licenseplate"},
	Contact:      {"contact", "phone", "phonenumber", "telephone", "mobile", "email", "address", "owner", "seller"},
}

// Kind tells a detail that is not for everybody, else "". A slip of the pen must not publish it.
func (d Detail) Kind() string {
	name := strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, d.Name)
	for kind, names := range kindsOfDetail {
		if slices.Contains(names, name) {
			return kind
		}
	}
	return pick.Either(near.Distance(name, Registration, 2) <= 2, Registration, "")
}

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
	"holding":       cardHolding,
	"weeks":         func(_ *Build, c *Card, l *note.Line) { v := [3]decimal.Decimal(l.Head.(note.Weeks)); c.Weeks = &v },
	"pace":          func(_ *Build, c *Card, l *note.Line) { c.Pace = l.Head.(*big.Rat) },
	"away":          func(_ *Build, c *Card, l *note.Line) { c.Away = measure.Merge(append(c.Away, l.Head.(measure.Span))) },
	"worst":         func(_ *Build, c *Card, l *note.Line) { c.OneInTen = l.Head.(string) != note.WorstCases[0] },
	"offers":        cardOffer,
	"papers":        func(b *Build, _ *Card, l *note.Line) { addPaper(b, nil, l) },
	"damage":        cardDamage,
	"fasteners":     cardFastener,
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
	r := DueRule{Name: l.Name, Severity: note.Major}
	var ok bool
	if r.Systems, ok = note.Arg[[]string](l, "after"); !ok {
		b.reject(l, source.Fault{Flaw: NoAfter, Span: l.NameSpan(), Word: l.Name})
		return
	}
	if s := l.Choice("severity"); s != nil {
		r.Severity = note.SeverityOf(s.Word)
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

// vat is the rate that a clause such as `plus vat` adds, its own or the card's; a line without one is rejected.
func (b *Build) vat(c *Card, l *note.Line, clause string) (decimal.Decimal, bool) {
	if own, ok := note.Arg[decimal.Decimal](l, clause); ok {
		return own, true
	}
	if c.VAT != nil {
		return *c.VAT, true
	}
	if b.leaveOut(l); !c.badVAT() {
		b.fault(source.Fault{Flaw: MissingVAT, Span: l.Clause(clause).Span})
	}
	return decimal.Decimal{}, false
}

// ManualPublic returns the table of the settings of `public`, in Markdown.
func ManualPublic() string {
	var t strings.Builder
	t.WriteString("| setting | words | what it shows |\n|---|---|---|\n")
	for _, s := range publicSettings {
		t.WriteString("| `" + s.name + "` | " + strings.Join(s.words, ", ") + " | " + s.shows + " |\n")
	}
	return t.String()
}
