// Package view holds what one audience may see of a build, and nothing else.
package view

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
	"github.com/yuin/goldmark/ast"
)

// An Audience is for whom a site is written: the name of a row of the table.
type Audience string

const (
	ForPublic   Audience = "public"
	ForBuyer    Audience = "buyer"
	ForWorkshop Audience = "workshop"
)

// A View is what an audience may see and nothing else. Empty, nil and absent all mean "not shown".
type View struct {
	Copy
	Name     string
	Currency money.Currency
	AsOf     measure.Date // 0 where every note counts
	Language string       // of the pages; that of the notes is Typed
	Typed    string
	Today    measure.Date
	About    *Body
	Vehicle  []Detail
	Stages   []string // all of the build, in order
	Odometer string
	Newest   measure.Date // the date of the newest session counted
	SoldOn   measure.Date // 0 while it is not sold
	Ready    *fact.Ready  // nil once sold, and where nobody can tell
	// Bid and Choices are the workshop's; nil also where the card tells too little or holds a mistake.
	Bid      *fact.BidAnswer
	Choices  *fact.Choices
	Sessions []*SessionView
	Pages    []*PageView
	Money    *MoneyView // nil where no money is shown
	Hours    bool       // whether time is shown
	Minutes  measure.Minutes
	// Snags are nil where none are shown. Withheld counts open private ones too grave to be silent about, by severity.
	Snags                     []*SnagView
	Withheld                  map[note.Severity]int
	UnseenOpen, UnseenCleared int
	Parts                     []*PartView
	Checks                    []*CheckView
	Readings                  []*ReadingView
	Scans                     []*ScanView
	Damage                    []*DamageView
	Fasteners                 []*FastenerView // those of the job card, in its order
	Unlisted                  []*FastenerView // those that were only recorded
	Donors                    []fact.Donor
	Quotes                    []fact.Quote       // nil but for the workshop
	Selling                   *Selling           // likewise, and once it is sold
	Calendar                  []fact.Appointment // the days ahead; nil but for the workshop
	// Safety says that work on a safety system is shown, which calls for a caution.
	Safety bool
	// Handover is how it stands against the requirements; nil but in the buyer's pack.
	Handover *HandoverView
	// Files are those that what is shown refers to, from the folder the user named. No other may be published.
	Files []string
	// BuildPath is the build's folder, relative to the same.
	BuildPath string
	// LinesLeftOut counts the lines that carry a mistake and therefore count nowhere.
	LinesLeftOut int

	parts     map[string]*PartView
	snags     map[string]*SnagView
	equipment []string // that the vehicle has, as the card says
}

// Part is the part of that id, nil where none is shown.
func (v *View) Part(id string) *PartView { return v.parts[id] }

// Snag is the snag of that id, nil where none is shown.
func (v *View) Snag(id string) *SnagView { return v.snags[id] }

// Inspection is the newest official one, nil where none is shown.
func (v *View) Inspection() *CheckView {
	for _, c := range slices.Backward(v.Checks) {
		if c.Inspection {
			return c
		}
	}
	return nil
}

type Detail struct {
	Name, Value string
	Contact     bool // it says whom a buyer can ask
}

// A Body is a note's Markdown with what has become of its task-list items.
type Body struct {
	Source []byte
	// Doc parses the body, whose places are those of Source, and keeps nothing else of the note.
	Doc func() ast.Node
	// Lead is the words of its first paragraph.
	Lead string
	// Items says how each item is shown, by its place (see [note.ItemAt]). One missing here is not shown in a session.
	Items map[int]*ItemView
	Snags bool
	// Dir is the folder that its relative links start from.
	Dir string
	// Later are the targets of pictures that are left out, since they may be from after the day.
	Later map[string]bool
}

type ItemView struct {
	What   fact.EventKind
	Ticked bool
	Words  string    // inline Markdown
	Snag   *SnagView // nil for a line that was not understood
}

type SessionView struct {
	Path     string // of the note
	Name     string // the path in its build without .md
	Date     measure.Date
	Title    string
	Stage    string
	System   string // of the stage
	Odometer string
	Body     *Body
	Work     []WorkView
	Minutes  measure.Minutes
	Money    []*MoneyLine
	// Spent is the session's costs less its credits; nil where its lines are not shown.
	Spent     *decimal.Decimal
	Parts     []PartEvent
	Checks    []*CheckView
	Readings  []*ReadingView
	Scans     []*ScanView
	Fasteners []TighteningView
	Opened    []*SnagView
	Cleared   []*SnagView
	Safety    bool
	Private   bool // it is marked so; only the workshop sees such a session
}

type PageView struct {
	Path, Title string
	Body        *Body
}

type WorkView struct {
	Minutes measure.Minutes
	Words   string
	Stage   string
	Private bool
}

// MoneyView is what is shown of the money.
type MoneyView struct {
	// Whole says that every category counts; else vehicle, fees, forecast, budgets and profit are left out.
	Whole bool
	Costs *fact.Costs
	// Lines are all lines that may be seen; nil where only sums are shown.
	Lines []*MoneyLine
	// LinesShown says that lines are shown, even if there are none.
	LinesShown bool
}

type MoneyLine struct {
	Credit      bool
	Date        measure.Date
	Session     string // the session's Name; "" where it has no page
	Note        string // the note's path
	Line        int
	Stage       string // "" where it belongs to none
	Category    string
	Description string
	Part        string
	Supplier    string
	Receipt     string
	Amount      decimal.Decimal // the build's part
	Whole       decimal.Decimal // before sharing
	Garage      decimal.Decimal
	Private     bool
}

type SnagView struct {
	fact.Snag
	Text       string // its words alone, for programs, which have the id beside them
	Typed      string // its words with the ids that the notes have, for those who write them
	Events     []EventView
	Session    string // the Name of the session it was opened in; "" where that has no page
	Note       string
	Line       int
	ClearedIn  string   // the Name of the session that cleared it; "" where that has no page
	ClearedAt  string   // the path of the note, "" while it is open and where that line is not shown
	ClearedRow int      // the line in it
	Evidence   Evidence // that it was put right; "" while it is open

	of string // the id of the part that it follows from
}

func CompareSnags(a, b *SnagView) int {
	return cmp.Or(fact.CompareSnags(&a.Snag, &b.Snag), cmp.Compare(a.Note, b.Note), cmp.Compare(a.Line, b.Line))
}

type EventView struct {
	What    fact.EventKind
	Date    measure.Date
	Session string
	Words   string
	Said    speech.Phrase // the same, where they are the program's own
	Photos  []string      // paths from the folder the user named
	Ticked  bool          // a line of the notes says so
	// Pictured says that a picture stands with it, Attached that another file does.
	Pictured, Attached bool
}

// Photos are those of all that was said of a snag.
func (x *SnagView) Photos() []string {
	return slices.Concat(pick.Map(x.Events, func(e EventView) []string { return e.Photos })...)
}

type PartView struct {
	fact.Part
	SurchargeBack decimal.Decimal // what came back for the old part, by the lines that are shown
	Events        []PartEvent
	Note          string // where its state was written
	Line          int
	Evidence      Evidence // that it is on the vehicle; "" where it is not
}

// Photos are those of all its changes of state.
func (x *PartView) Photos() []string {
	return slices.Concat(pick.Map(x.Events, func(e PartEvent) []string { return e.Photos })...)
}

type PartEvent struct {
	ID, Description string
	State           string
	Date            measure.Date
	Session         string
	Remark          string
	Said            speech.Phrase // the remark, where the program adds to it
	Photos          []string
}

// A CheckView is a check that was carried out, or an official inspection.
type CheckView struct {
	Inspection   bool
	Until        measure.Date // of an inspection's certificate
	Name, Result string
	Date         measure.Date
	Session      string
	Words        string
	At, By       string
	System       string
	Receipt      string
	Photos       []string
	Evidence     Evidence

	covers []string // the systems of the vehicle that it looks at, by the table of checks
}

type ReadingView struct {
	Name    string
	Date    measure.Date
	Session string
	Value   measure.Quantity
	Limits  note.Limits // as written with it
	System  string
	Words   string
}

type ScanView struct {
	Unit     string
	Date     measure.Date
	Session  string
	NoFaults bool
	Codes    []note.Code
}
