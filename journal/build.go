// Package journal compiles notes. A [Build] is what they say, resolved once and
// independent of any date.
package journal

import (
	"io/fs"
	"strings"
	"sync"
	"time"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/picture"
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

// FormatMoney formats a sum as the exports do, with exactly the currency's digits.
func (b *Build) FormatMoney(d decimal.Decimal) string { return money.Format(d, b.Card.Currency) }

// ShowMoney formats a sum for people.
func (b *Build) ShowMoney(d decimal.Decimal) string { return money.Show(d, b.Card.Currency) }

// found is one Markdown file, or why it is none.
type found struct {
	note  *note.Note
	fault *source.Fault
	page  bool
	named nameDate
}

// nameDate is the date that a file name begins with.
type nameDate struct {
	has  bool // the name begins like one
	date measure.Date
	bad  *source.Malformed
}

// A Donor is a vehicle that parts are taken from. One of garage.md is shared by all builds.
type Donor struct {
	Name     string
	Line     *note.Line
	Price    decimal.Decimal
	On       measure.Date // 0 where it is not said
	Category string
	Flood    bool
	Lost     bool            // its line holds a mistake, and so does whatever hangs on it
	Holds    decimal.Decimal // what is still in it is worth
	Taken    []Taking        // by every build, in the order in which the parts were first mentioned
	Money    []*Money        // what was paid and came back for it, in every build
}

type Taking struct {
	Build *Build
	Line  *PartLine // that says that it is here, and whence
	Worth decimal.Decimal

	first   measure.Date // when the part was first mentioned
	firstAt string       // and in which note, from the folder of the garage
	firstOn int32        // and where in it
}

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

// isCode tells whether an id is that of a fault code but for its capitals.
func (b *Build) isCode(id string) bool { return b.ids[id] == nil && b.near.known.Nearest(id) == id }

func (b *Build) StageNamed(name string) *Stage { return b.stageAt[name] }

func (b *Build) StageNames() []string { return b.stageNames }

func (b *Build) addStage(s *Stage) {
	b.Stages, b.stageNames = append(b.Stages, s), append(b.stageNames, s.Name)
	b.stageAt[s.Name] = s
	b.near.stages.Add(s.Name)
}

// SystemOf returns the system of a stage, "" where it has none.
func (b *Build) SystemOf(stage string) string {
	if s := b.StageNamed(stage); s != nil {
		return s.System
	}
	return ""
}

// stageOf is where a line belongs: its own `stage`, that of its part, or its session's.
func (b *Build) stageOf(s *Session, l *note.Line, part string) string {
	if stage, ok := note.Arg[string](l, "stage"); ok {
		return stage
	}
	if id := b.ids[part]; id != nil && id.stage != "" {
		return id.stage
	}
	return s.Stage
}

// StageOfPart is where a part belongs on a line of it.
func (b *Build) StageOfPart(pl *PartLine) string { return b.stageOf(pl.Session, pl.Line, pl.ID) }

func (b *Build) donor(name string) *Donor {
	return pick.First(b.Donors, func(d *Donor) bool { return d.Name == name })
}

// A Reader reads one build or garage again and again, and parses only notes whose bytes have changed. A nil one keeps nothing.
type Reader struct {
	mu   sync.Mutex
	last map[string]*kept // of the reading before, by path
	kept map[string]*kept // of this one, so that nothing is kept of notes that are gone

	seen   sync.Map           // the sightings of files that are no notes, by path
	builds map[string]*Reader // of a garage, by folder
}

// kept is a file as it was read, before it was resolved in any build.
type kept struct {
	data  []byte
	home  money.Currency
	found *found
}

func (r *Reader) saw(p string) (s sighting, ok bool) {
	if r == nil {
		return s, false
	}
	v, ok := r.seen.Load(p)
	s, _ = v.(sighting)
	return s, ok
}

func (r *Reader) remember(p string, s sighting) {
	if r != nil {
		r.seen.Store(p, s)
	}
}

// sighting is what was seen of a file, as long as its size and time are the same.
type sighting struct {
	size   int64
	time   time.Time
	header *picture.Header
	err    error
}
