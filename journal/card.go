package journal

import (
	"math/big"
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

// ManualPublic returns the table of the settings of `public`, in Markdown.
func ManualPublic() string {
	var t strings.Builder
	t.WriteString("| setting | words | what it shows |\n|---|---|---|\n")
	for _, s := range publicSettings {
		t.WriteString("| `" + s.name + "` | " + strings.Join(s.words, ", ") + " | " + s.shows + " |\n")
	}
	return t.String()
}

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

// A Fastener is one of the job card's: how the maker wants it tightened.
type Fastener struct {
	note.Fastening
	note.Tolerance
	Line       *note.Line
	ID, Part   string
	Words      string
	SingleUse  bool
	RideHeight bool
	System     string // its own; "" where it has that of its part
}

// Ahead is what the card says about hours, weeks and what an unfinished vehicle brings.
type Ahead struct {
	Hourly   *decimal.Decimal // what an hour should earn; nil where none is asked for
	Holding  *big.Rat         // what it costs to keep by the week; nil for nothing
	Weeks    *[3]decimal.Decimal
	Pace     *big.Rat       // minutes of work a week; nil where none is named
	Away     []measure.Span // in order, none touching the next
	OneInTen bool           // best and worst are chances of one in ten
	Offers   []Offer
}

type Offer struct {
	Name  string
	Money [3]decimal.Decimal
	Hours [3]measure.Minutes // that it still takes
	From  string
	Until measure.Date // 0: it stands without end
	Line  *note.Line
}
