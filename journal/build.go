// Package journal compiles notes. A [Build] is what they say, resolved once and
// independent of any date.
package journal

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Build is one vehicle's notes, resolved.
type Build struct {
	Path        string // its folder, relative to what the user named
	Card        *Card
	Sessions    []*Session // by date, then by path
	Pages       []*Page
	Stages      []*Stage // the card's in its order; without any, the notes' by first use
	Money       []*Money // costs and credits in the order of the notes
	Work        []*Work
	Checks      []*CheckLine
	Readings    []*Reading
	Scans       []*Scan
	Left        []*Remaining
	PartLines   []*PartLine
	Inspections []*Inspection // in order
	Tightenings []*Tightening // what sessions say of fasteners, in order
	Asides      []*Act        // what items say of checks, in order
	OfReadings  []*Act        // the same of readings
	Acts        []*Act        // what the task-list items do, in order
	Moves       []*Move       // what happened to surcharges, by date
	Donors      []*Donor      // of the card, then those that the garage lends
	Papers      []*Paper      // of the card, then in the order of the notes
	Quotes      []*Quote      // in the order of the notes
	Sales       []*Sale       // the lines of the sale's account, by date
	Files       map[string]bool
	Outside     map[string]bool // files that are links out of the folder the user named

	// Faults is everything that could not be understood or deserves a word, as found.
	Faults []source.Fault
	// LinesLeftOut counts the lines that carry a mistake and therefore count nowhere.
	LinesLeftOut int

	leftOut   map[*note.Line]bool // those that could be read, but not be true
	inGarage  string              // its folder in the garage; "" where it is in none
	lent      []*Donor
	lentIn    money.Currency // in which their prices are
	fsys      fs.FS
	reader    *Reader           // nil where it is read only once
	composed  map[string]string // see Find
	items     []*Item
	ofParts   []sessionLine
	openings  map[string]*Item // where each id is opened first
	ids       map[string]*identity
	cardAlone bool                   // no note was read
	badID     map[string]bool        // declared by a line that is itself in error
	snagFirst map[string]bool        // opened by an item before another line takes the same id
	firstOf   map[string]*Reading    // the first reading of each name
	limitsOf  map[string]note.Limits // as they hold after the last reading of that name
	failed    map[string]*CheckLine  // the last check of each name that failed
	near      nearNames

	stageAt    map[string]*Stage // by name
	stageNames []string
}

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

// Name is the session's path in its build without .md: stable and unique.
func (s *Session) Name(b *Build) string {
	return strings.TrimSuffix(strings.TrimPrefix(s.Path, b.Path+"/"), ".md")
}

// A Page is an extra page of the site.
type Page struct {
	Note    *note.Note
	Path    string
	Title   string
	Private bool
}

// A Work is one line of time.
type Work struct {
	Session *Session
	Line    *note.Line
	Stage   string
	Minutes measure.Minutes // of person time: duration times hands
	Private bool
}

const (
	MissingDate       source.Flaw = "missing-date"
	DateDiffers       source.Flaw = "date-differs"
	UnknownStage      source.Flaw = "unknown-stage"
	SimilarStage      source.Flaw = "similar-stage"
	OdometerBackwards source.Flaw = "odometer-backwards"
)

func (b *Build) fault(f source.Fault) { b.Faults = append(b.Faults, f) }

func (b *Build) reject(l *note.Line, f source.Fault) {
	b.leaveOut(l)
	b.fault(f)
}

// leaveOut settles that a line counts nowhere. What is wrong was said elsewhere.
func (b *Build) leaveOut(l *note.Line) {
	if b.leftOut == nil {
		b.leftOut = map[*note.Line]bool{}
	}
	b.leftOut[l] = true
}

// LeftOut tells whether a line counts nowhere: it could not be read, or does not fit what others say.
func (b *Build) LeftOut(l *note.Line) bool { return l.Bad || b.leftOut[l] }

func newPage(n *note.Note) *Page {
	p := &Page{Note: n, Path: n.File.Path}
	if l := n.Line("page"); l != nil {
		p.Title = l.Text.S
	}
	p.Private = isYes(n.Line("private"))
	return p
}

func isYes(l *note.Line) bool {
	if l == nil {
		return false
	}
	yes, _ := l.Head.(bool)
	return yes
}

// addSession takes a note in, unless its date is bad or missing.
func (b *Build) addSession(n *note.Note, named nameDate) {
	date, ok := dateOf(b, n, named)
	if !ok {
		b.LinesLeftOut += len(n.Lines) + len(n.Items)
		return
	}
	s := &Session{Note: n, Path: n.File.Path, Date: date, Title: n.Heading, Private: isYes(n.Line("private"))}
	if l := n.Line("title"); l != nil {
		s.Title = l.Text.S
	}
	if s.Title == "" {
		s.Title = date.String()
	}
	if l := n.Line("odometer"); l != nil {
		q := l.Head.(measure.Quantity)
		s.Odometer = &q
	}
	b.Sessions = append(b.Sessions, s)
}

func nearDate(name string) string {
	m := dateInName.FindStringSubmatch(name)
	if m == nil {
		return ""
	}
	date, bad := measure.ParseDate(fmt.Sprintf("%s-%02s-%02s", m[1], m[2], m[3]))
	if bad != nil {
		return ""
	}
	return "Write the date in the file's name as " + date.String() + "."
}

// dateInName matches a date that is written without its zeros or with other marks.
var dateInName = regexp.MustCompile(`^((?:19|20)\d\d)[-_. ]?(\d\d?)[-_. ]?(\d\d?)(?:\D|$)`)

func dateOf(b *Build, n *note.Note, named nameDate) (measure.Date, bool) {
	top := n.File.Span(0, 0)
	if n.Unread {
		return 0, false
	}
	if named.bad != nil {
		b.fault(source.Fault{Flaw: note.BadDate, Span: top, Word: path.Base(n.File.Path)[:10],
			Why: "the file's name begins with it, but " + named.bad.Why, Help: "Give the file the name of its day."})
		return 0, false
	}
	var field *note.Line
	for _, l := range n.Lines {
		if l.Kind.Key == "date" {
			field = l
		}
	}
	switch {
	case field == nil && !named.has:
		if n.Field("date") == nil { // one that is there but empty was reported
			b.fault(source.Fault{Flaw: MissingDate, Span: note.Open(n.File).Fields[0].KeySpan, Help: nearDate(path.Base(n.File.Path))})
		}
		return 0, false
	case field == nil:
		return named.date, true
	case b.LeftOut(field):
		return 0, false
	}
	date := field.Head.(measure.Date)
	if named.has && date != named.date {
		b.reject(field, source.Fault{Flaw: DateDiffers, Span: field.HeadSpan(), Word: date.String(), Near: []string{named.date.String()}})
		return 0, false
	}
	return date, true
}

// compile resolves the sessions' lines in order.
func (b *Build) compile() {
	b.ids, b.badID = make(map[string]*identity, 4*len(b.Sessions)), map[string]bool{}
	b.firstOf, b.limitsOf, b.failed = map[string]*Reading{}, map[string]note.Limits{}, map[string]*CheckLine{}
	b.near.joined = map[string]string{}
	readDonors(b)
	for _, d := range b.lent {
		if b.lentIn == b.Card.Currency && b.donor(d.Name) == nil {
			b.Donors = append(b.Donors, d)
		}
	}
	resolveStages(b)
	collectItems(b)
	declareParts(b)
	checkFasteners(b)
	checkOdometers(b)
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			resolve := resolvers[l.Kind.Key]
			if resolve == nil {
				continue
			}
			checkNames(b, l)
			if !b.LeftOut(l) {
				resolve(b, s, l)
			}
		}
		for _, sc := range s.Note.Scans {
			b.Scans = append(b.Scans, &Scan{Session: s, Scan: sc})
		}
	}
	resolveItems(b)
	resolveSurcharges(b)
	resolveSale(b)
	offerNames(b)
	takingsOf(b)
	countLeftOut(b)
	b.near = nearNames{} // everything was told by now
}

// resolvers turn a line into what the build knows. Parts are declared before, since lines may name a later note's.
var resolvers = map[string]func(*Build, *Session, *note.Line){
	"time":       addWork,
	"cost":       addMoney,
	"credit":     addMoney,
	"sold":       addSale,
	"sale":       addSale,
	"checks":     addCheck,
	"readings":   addReading,
	"remaining":  addRemaining,
	"papers":     addPaper,
	"fasteners":  addTightening,
	"inspection": addInspection,
	"quotes":     (*Build).addQuote,
}

func addWork(b *Build, s *Session, l *note.Line) {
	w := &Work{Session: s, Line: l, Stage: b.stageOf(s, l, ""), Minutes: l.Head.(measure.Minutes), Private: s.Private || l.Has("private")}
	if hands, ok := note.Arg[int](l, "hands"); ok {
		w.Minutes *= measure.Minutes(hands)
	}
	b.Work = append(b.Work, w)
}

// FormatMoney formats a sum as the exports do, with exactly the currency's digits.
func (b *Build) FormatMoney(d decimal.Decimal) string { return money.Format(d, b.Card.Currency) }

// ShowMoney formats a sum for people.
func (b *Build) ShowMoney(d decimal.Decimal) string { return money.Show(d, b.Card.Currency) }
