package render

import (
	"cmp"
	"iter"
	"strconv"
	"strings"
	"sync"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
	"guidecoat/render/photo"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// What all pages share, settled before the first is made, and what each is written from.

// Options are what a site depends on besides the view.
type Options struct {
	Theme *themes.Theme
	// Read returns one of the build's files by its path. Only those that the view names are asked for.
	Read func(path string) ([]byte, error)
	// Look, if not nil, does as photo.Look, and may remember what it saw.
	Look func(path string) (*photo.Plan, error)
	// Store, if it is not nil, keeps pictures that are made, so that none is worked on twice.
	Store Store
	// Photos, if it is not nil, is told of each picture of the site.
	Photos  *Progress
	Notes   []RawNote // shown to the workshop alone
	BaseURL string    // where the site will stand; "" where that is not known
	Version string    // of guidecoat

	garage string // the garage whose front page stands above the site; "" for none
}

// A Garage is several builds side by side, as one audience may see them.
type Garage struct {
	view.Copy
	Name   string
	Builds []Build // in the order in which they are listed
}

type Build struct {
	Path  string // its folder in the garage
	View  *view.View
	Notes []RawNote
}

// A Store keeps pictures by their names. It may lose any, and is asked by several at once.
type Store interface {
	Get(name string) ([]byte, bool)
	Put(name string, data []byte)
}

// A Progress is how many pictures are done, of how many. Tell is called by one at a time.
type Progress struct {
	Tell      func(done, all int)
	mu        sync.Mutex
	done, all int
}

// A RawNote is a note as typed. What is told of it is asked for when a page is made; nil tells nothing.
type RawNote struct {
	File *source.File
	Told func() Told
}

// Told is what is wrong with a note and, by line, what it was understood to say.
type Told struct {
	Problems []problem.Problem
	Read     map[int]string
}

func (n RawNote) told() (t Told) {
	if n.Told != nil {
		t = n.Told()
	}
	return t
}

// A site is a view with all that its pages share, settled before the first is made.
type site struct {
	*voice
	v          *view.View
	o          Options
	md         *markdown.Renderer
	paths      paths
	files      map[string]*file    // the build's files that are shown, by path
	spelt      map[string]string   // their paths, by the composed form
	sessions   []*view.SessionView // those that have a page
	front      *frontPicture       // the picture that stands for the build; nil for none
	inYears    bool                // what it tells lies in more than one year
	lines      map[lineKey]string  // the anchors of lines of money
	bySupplier map[string][]*view.MoneyLine
	listed     map[[2]string]bool // the stages, and their categories, that lines are listed of
	list       bound[*view.SessionView]
	ledger     bound[ledgerEntry]
	snags      bound[*view.SnagView]
	parts      bound[*view.PartView]
	measured   bound[measuredEntry]
	album      []*shot          // every picture once, by date
	shots      map[string]*shot // the same, by where they stand in the site
	months     bound[*shot]
	places     bound[*shot]
	taped      []fix // the temporary fixes
	tapedTo    measure.Date
	pack       bound[packEntry]
	notes      bound[RawNote]
	extra      bound[*view.PageView]
	nav        []Link
	progress   []view.StageProgress
	series     []*view.ReadingSeries
	todo       []task   // all pages
	sheets     []string // the paths of all pages
}

// A frontPicture is the picture that stands for the build in previews, and maybe on its front page.
type frontPicture struct {
	picture *Picture          // as seen from the front page
	session *view.SessionView // it is of; nil for the job card
}

type file struct {
	picture *photo.Plan // nil for any other file
	at      string      // in the site; of a picture its largest size
}

type Picture struct {
	Src, Srcset   string
	Href          string // its page in the album, else the file
	File          string // its largest size
	Width, Height int
	Alt           string
	Eager         bool // it is fetched before anybody scrolls to it
}

// A shot is a picture as it is shown first.
type shot struct {
	file    *file
	alt     string
	date    measure.Date // 0 where no session shows it
	session *view.SessionView
	place   string // the system of the vehicle that it is of; "" for the whole
	told    bool   // it stands in the story, not with a part, a snag or a check
	alone   bool   // it is all that its paragraph holds
	page    string // the path of its page
}

type paths struct {
	sessions map[string]string         // by the session's Name
	pages    map[string]string         // by the note's path
	noteOf   map[string]string         // the note's path, by the session's Name
	notes    map[string]string         // raw notes, by their path
	byNote   map[string]string         // the page that is made of a note, by the note's path
	snags    map[*view.SnagView]string // anchors
	ids      map[string]string         // of parts and snags, by their id; settled when both are bound
	snagOf   map[string]*view.SnagView // likewise
	partOf   map[string]string         // the description of a part, by its id
	taken    map[string]int            // all paths of pages that are settled; see unique
}

// A lineKey is where a line of money is written.
type lineKey struct {
	note string
	line int
}

// A ledgerEntry is of the list below the sums: first suppliers, then every line by stage and category.
type ledgerEntry struct {
	supplier *fact.NamedSum
	stage    *fact.Stage
	category string
	line     *view.MoneyLine

	id, group string // the anchors of the stage and of the category in it
}

// A measuredEntry is a reading of a series, a check, or a scan with the one before it.
type measuredEntry struct {
	series       *view.ReadingSeries
	nth          int
	check        *view.CheckView
	scan, before *view.ScanView
}

// A sheet is one file to be made as a page.
type sheet struct {
	path                 string
	heading, description string
	nav                  string // what the navigation calls it; "" for not at all
	typed                bool   // its heading and description are words of the notes
	calm                 bool   // it tells of no work that is a matter of safety
	main                 func(*leaf)
}

// A task is a sheet with the name of its sort of page.
type task struct {
	sheet
	kind string
}

// A leaf is a page that is being written, with all that it may tell. Its methods write.
type leaf struct {
	*markup.W
	*site
	task
	err      error
	pictured bool // a picture stands on it already
}

type packSection struct {
	id, name string
	shelf    string // of a long record, what its page is called; "": by its own name
	gather   func(s *site, shown map[string]bool) []packEntry
}

// A packEntry is one thing in a section, and how it is written.
type packEntry struct {
	section *packSection
	under   string // the heading within the section; "" for none
	must    bool   // it must be read, so its section is not folded
	weight  int
	anchors []string
	in      *markup.Wrap // the list or table that it is in; nil for none
	write   func(packLeaf)
}

type packLeaf struct{ *leaf }

// A job makes one file, or several that belong together.
type job func() ([]place.File, error)

// Files are those of a site, each made shortly before it is asked for. After an
// error no file follows, but all others are still tried, so that everything that is
// wrong is said at once: the error comes last.
type Files = iter.Seq2[place.File, error]

// sheets are the pages of a list, one for each volume.
func (b *book) sheets(s *site, label, description string, main func(*leaf, volume)) []sheet {
	return pick.Map(b.volumes, func(v volume) sheet {
		return sheet{path: v.path, heading: v.heading(s, label), description: description, main: func(p *leaf) { main(p, v) }}
	})
}

// heading is that of the page of a volume.
func (v volume) heading(s *site, label string) string {
	name := pick.Either(v.nth > 0, s.Say("%s, page %s", v.name, strconv.Itoa(v.nth)), v.name)
	return s.Word(label) + given(!v.front, ": "+name)
}

// address is where a file will stand, "" without a base. An index.html goes by its folder.
func (s *site) address(at string) string { return addressAt(s.o.BaseURL, at) }

func addressAt(base, at string) string {
	return given(base != "", strings.TrimSuffix(base, "/")+"/"+strings.TrimSuffix(at, "index.html"))
}

// leading is the way from a page to another, "" to none.
func leading(at, to string) string { return given(to != "", root(at)+to) }

// toSession leads to a session, "" where it has no page.
func (s *site) toSession(at, name string) string { return leading(at, s.paths.sessions[name]) }

func (s *site) toSnag(at string, x *view.SnagView) string {
	anchor := s.paths.snags[x]
	return given(anchor != "", s.snags.to(at, anchor))
}

// toID leads to the part or snag of that id, "" where neither is shown.
func (s *site) toID(at, id string) string { return leading(at, s.paths.ids[id]) }

// namedLength is how much of a snag's words stands for it where only its id is written.
const namedLength = 60

// named is what a part or snag is called for people; its id where neither is shown.
func (s *site) named(id string) string {
	if x := s.paths.snagOf[id]; x != nil {
		return shorten(note.PlainWords(s.wordsOf(x)), namedLength)
	}
	return cmp.Or(s.paths.partOf[id], id)
}
