package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// What the lines of the notes tell, as they were read: plain shapes, with what each says of itself.

// A Session is one dated note.
type Session struct {
	Note     *note.Note
	Path     string
	Date     measure.Date
	Place    int // among the sessions, in their order
	Title    string
	Stage    string            // "" where none is named or it is not known
	StageBad bool              // it names one, but not one there is; reported there
	Odometer *measure.Quantity // nil where it is not given
	// Running is the odometer of this session, else of the newest earlier one that has it.
	Running *measure.Quantity
	Private bool

	saidUnstaged bool
}

type sessionLine struct {
	in *Session
	*note.Line
}

// A Work is one line of time.
type Work struct {
	Session *Session
	Line    *note.Line
	Stage   string
	Minutes measure.Minutes // of person time: duration times hands
	Private bool
}

// A Money is one cost or credit line, worked out.
type Money struct {
	Session  *Session
	Line     *note.Line
	Credit   bool
	Private  bool
	Date     measure.Date
	Due      measure.Date // by when the old part must be back
	Stage    string       // "" where it belongs to none
	Category string       // of a cost; the sort of a credit
	Part     string
	// Donor is the donor that it is a share of the price of, or was paid for.
	Donor string
	money.Sum
	Surcharge decimal.Decimal // the refundable part of a cost
}

// Description is what the money was for, in the words of the line.
func (m *Money) Description() string {
	if m.IsShare() {
		return "share of " + m.Donor
	}
	return m.Line.Words().S
}

// IsShare tells whether it is a share of a donor's price, which no line of its own says.
func (m *Money) IsShare() bool { return m.Line.Kind.Key == "parts" }

// ForPart is what the line adds to the price of its part: a refund takes off, a returned surcharge is no part of it.
func (m *Money) ForPart() decimal.Decimal {
	switch {
	case !m.Credit:
		return m.Sum.Build
	case m.Category == "refund":
		return m.Sum.Build.Neg()
	}
	return decimal.Zero
}

// Supplier is where the money went or came from, "" where that is not said.
func (m *Money) Supplier() string {
	if m.IsShare() {
		return ""
	}
	return said(m.Line, "from")
}

// Receipt is the number or the file of the receipt, "" where there is none.
func (m *Money) Receipt() string { return said(m.Line, "receipt") }

func said(l *note.Line, clause string) string {
	text, _ := note.Arg[string](l, clause)
	return text
}

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

// A CheckLine is an inspection or procedure that was carried out.
type CheckLine struct {
	Session *Session
	Line    *note.Line
	Name    string
	Result  string            // passed, failed or done
	At      *measure.Quantity // the odometer; its own, else the session's; nil where neither says
	By      string
	System  string
	// Severity is how bad it is that the check failed; NoSeverity where the line does not say.
	Severity note.Severity
	Private  bool
	Denied   bool // its words take the result back, so it settles nothing
}

// unclear is the result of a check whose words take it back.
const unclear = "unclear"

type Reading struct {
	Session  *Session
	Line     *note.Line
	Name     string
	Value    measure.Quantity
	Limits   note.Limits // as they stand on that line; nothing where it has none
	Severity note.Severity
	System   string
	Private  bool
}

// A Scan is what one control unit said.
type Scan struct {
	*note.Scan
	Session *Session
}

// An Inspection is an official one: that of the country, by somebody appointed.
type Inspection struct {
	Session *Session
	Line    *note.Line
	Passed  bool
	Words   string
	At      *measure.Quantity // the odometer; its own, else the session's
	By      string
	Until   measure.Date // of its certificate; 0 where it is not said
	Private bool
}

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
func (p *Paper) ID() string { return paperID(p.Name) }

func paperID(name string) string { return "paper-" + cmp.Or(note.SuggestID(name), name) }

// A Sale is one line of the sale's account. `sold` is one that says `agreed`.
type Sale struct {
	Session *Session
	Line    *note.Line
	What    string // one of note.SaleHeads
	Date    measure.Date
	Price   decimal.Decimal // zero where `returned` names none
	To      string          // the buyer
	Into    string          // the folder of the build that a part exchange became
	Private bool
}

// A Move is one thing that happened to the surcharge on a part, told by Money or by Item.
type Move struct {
	Date  measure.Date
	Money *Money          // a cost that carries one, or a credit that returns it
	Item  *Item           // a tick: it is given up; otherwise a remark
	Owed  decimal.Decimal // what is still to come back after it
}

// ID is the id of the item that the surcharge opens.
func (m *Move) ID() string {
	if m.Item != nil {
		return m.Item.ID
	}
	return SurchargeID(m.Money.Part)
}

// A Remaining is a fresh estimate of what a stage still needs.
type Remaining struct {
	Session *Session
	Line    *note.Line
	Stage   string
	Cost    [3]decimal.Decimal
	Hours   *[3]measure.Minutes
	Closed  bool // `nothing`: the stage needs no more, whatever comes back later
}

// A Quote is what somebody asks for a part. Each sum is rounded, and Landed adds up the rounded.
type Quote struct {
	Session           *Session
	Line              *note.Line
	Part, From        string
	Price, Freight    decimal.Decimal // together the value for the customs
	Duty, Tax         decimal.Decimal
	Clearance, Landed decimal.Decimal
	Wait              *int // days; nil where it is not said
	Until             measure.Date
	Private           bool
}

// A Tightening is what a session says was done with a fastener.
type Tightening struct {
	note.Fastening
	Session    *Session
	Line       *note.Line
	ID         string
	Words      string
	New        bool
	RideHeight bool
	By         string
	Private    bool
}

// An Item is a task-list item with the session it stands in. Its id may be known only when others are.
type Item struct {
	Session *Session
	*note.Item
	ID     string // "" where it has none
	IDSpan source.Span

	words *note.Text // nil where they are as they were read
}

func (it *Item) Words() note.Text {
	if it.words != nil {
		return *it.words
	}
	return it.Item.Words()
}

// Private tells whether the item or its session is.
func (it *Item) Private() bool { return it.Session.Private || it.Has("private") }

// changes tells whether the item says more of its snag than words, which are hidden on their own.
func (it *Item) changes() bool {
	return slices.ContainsFunc(it.Clauses, func(c note.Found) bool { return c.Word != "private" && c.Word != "photo" && c.Word != "sure" })
}

type Act struct {
	*Item
	What fact.EventKind // a ticked item that opens a snag clears it at once
	Of   *Act           // of an item without an id that clears another: what opened that
	fact.Standing
}

// standing is what the lines about a snag have said of it so far, with what they left open.
type standing struct {
	fact.Standing
	given note.Severity // what the notes say; NoSeverity: the default holds
}

// SurchargeID is the id of the item that a surcharge on a part opens.
func SurchargeID(part string) string { return part + "-surcharge" }

// FiredID is the id of the item that tells of something fired which no new part replaces.
func FiredID(part string) string { return "fired-" + part }

// FloodedID is the id of the snag that a part of restraints opens which stood in water.
func FloodedID(part string) string { return part + "-flooded" }

// RoadworthinessTest is the name of the check that is read as an inspection.
const RoadworthinessTest = "roadworthiness-test"

// ReadingID is what is outstanding where a reading is outside its limits.
func ReadingID(name string) string { return "reading-" + name }
