package fact

import (
	"cmp"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

type Part struct {
	ID          string
	Description string
	State       string
	Since       measure.Date // of its state
	Stage       string       // "" where it belongs to none
	System      string       // its own, else its stage's, else one of where it was fitted
	Systems     []string     // all that it touches, that one first
	Condition   string
	Origin      string
	Estimate    *Three
	Supplier    string
	Number      string
	Donor       string
	Worth       *decimal.Decimal // by which it bears a share of its donor's price; nil where it has none
	Due         measure.Date
	Warranty    measure.Date
	Free        bool
	// Paid is the build's part of its costs less its refunds; nil where that is not shown.
	Paid *decimal.Decimal
	// PaidInRound says that a cost is dated in its round, which uses its estimate up.
	PaidInRound bool
	Late        bool // due before the day it stood on, and not here yet
}

// rank orders the states that go forward only. Refitted stands beside fitted.
var rank = map[string]int{"needed": 1, "ordered": 2, "arrived": 3, "fitted": 4, "refitted": 4}

func EndsRound(state string) bool { return rank[state] == 0 }

// Reached tells whether a part in that state is as far as the other or farther.
func Reached(state, other string) bool { return rank[state] >= rank[other] }

func (p *Part) Waited() bool { return p.State == "needed" || p.State == "ordered" }

// InHand tells whether the part is here or on the vehicle.
func (p *Part) InHand() bool { return Reached(p.State, "arrived") }

// Fitted tells whether the part is on the vehicle.
func (p *Part) Fitted() bool { return Reached(p.State, "fitted") }

// A Donor is a vehicle that parts were taken from, as it stood. What is nil is not shown.
type Donor struct {
	Name, Category string
	Words          string
	On             measure.Date     // when it was bought; 0 where it is not said
	Price          *decimal.Decimal // with what was paid for it since, less what came back
	Parts          int              // that this build took
	Spread         *decimal.Decimal // over the parts of all builds
	Left           *decimal.Decimal // what stays in the garage
	Holds          *decimal.Decimal // what is still in it is worth
}

// A Quote is what somebody asks for a part that is still to come, brought into the yard.
type Quote struct {
	Part, From, Words                            string
	Price, Freight, Duty, Tax, Clearance, Landed decimal.Decimal
	Wait                                         *int             // days; nil where it is not said
	Holding                                      *decimal.Decimal // what keeping the vehicle costs meanwhile; nil where no wait or no holding is known
	Until                                        measure.Date
	Expired                                      bool
	Best                                         bool // landed and holding together are the least
}

// Together is what it costs with what keeping the vehicle costs meanwhile.
func (q *Quote) Together() decimal.Decimal {
	if q.Holding == nil {
		return q.Landed
	}
	return q.Landed.Add(*q.Holding)
}

// A Snag is something outstanding, or something that was, as it stood.
type Snag struct {
	ID     string // "" for one that has none
	Source Source
	Standing
	// ToDrive is the severity before driving: less for a check that can only be done after some distance.
	ToDrive note.Severity
	Unit    string // the control unit of a fault code; "" for any other snag
	Code    string // the fault code it is of; "" for any other
	Open    bool
	Opened  measure.Date // of its last opening
	Cleared measure.Date // 0 while it is open
	// Undated says that it was ticked where it was opened: on the day Cleared or later.
	Undated bool
	// NotBefore is the odometer reading from which it can be done; nil: at once. TooEarly: it is not reached.
	NotBefore                 *measure.Quantity
	TooEarly, Overdue, Doable bool
	Failed                    measure.Date // when the check failed that it comes from; 0 for none
}

// A Standing is what the lines about a snag have said of it so far.
type Standing struct {
	Kind     string        // of notes only; "" for what follows by itself
	Words    string        // inline Markdown
	Said     speech.Phrase // the same, where they are the program's own, or it adds to them
	Stage    string        // "" where it belongs to none
	System   string
	Severity note.Severity
	Due      measure.Date
	DueAt    *measure.Quantity // the odometer reading by which it is due; nil where it has none
	WaitsFor []string
	Takes    measure.Minutes // 0 where it is not said
	Disclose bool
	Private  bool
	Own      string    // the system that its lines name themselves; "" where they name none
	Asks     note.Asks // the checks that it asks for once it is done; nil: those of the table
}

// Tell sets its words to the program's own.
func (s *Snag) Tell(p speech.Phrase) { s.Said, s.Words = p, p.String() }

// Outstanding tells whether somebody must still see to it, not merely tell the buyer.
func (s *Snag) Outstanding() bool { return s.Open && !s.Disclose }

// guessedTime is what a snag counts for whose lines say no time.
const guessedTime measure.Minutes = 60

// Time is how long it takes, and whether its lines say so; nothing where nothing is to be mended.
func (s *Snag) Time() (time measure.Minutes, said bool) {
	switch {
	case s.Disclose || s.Source == FromPaper:
		return 0, true
	case s.Takes == 0:
		return guessedTime, false
	}
	return s.Takes, true
}

// FromWork tells whether it follows from work.
func (s *Snag) FromWork() bool {
	return s.Source == FromDue || s.Source == FromCheck || s.Source == FromFastener
}

// DueText is when it is due: an odometer reading, or a date; "" for neither.
func (s *Standing) DueText() string {
	if s.DueAt != nil {
		return s.DueAt.String()
	}
	return s.Due.String()
}

// Source is where a snag comes from.
type Source string

const (
	FromNote       Source = "note"
	FromDue        Source = "due"
	FromCheck      Source = "check"
	FromReading    Source = "reading"
	FromScan       Source = "scan"
	FromSurcharge  Source = "surcharge"
	FromPaper      Source = "paper"
	FromInspection Source = "inspection"
	FromFastener   Source = "fastener"
	FromDamage     Source = "damage"
)

// EventKind is what happened to a snag.
type EventKind string

const (
	Opened   EventKind = "opened"
	Remarked EventKind = "remarked"
	Cleared  EventKind = "cleared"
	Reopened EventKind = "reopened"
)

// ScanID is the id of the snag that a fault code opens.
func ScanID(unit, code string) string { return "scan-" + unit + "-" + code }

// CompareSnags orders snags: worst first, then oldest, then by id, those without one last.
func CompareSnags(a, b *Snag) int {
	byID := cmp.Compare(a.ID, b.ID)
	if (a.ID == "") != (b.ID == "") {
		byID = -byID
	}
	return cmp.Or(-cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Opened, b.Opened), byID)
}
