// Package render turns a view of a build into the files of a site.
//
// It formats and arranges; it computes no figure and decides nothing about who may
// see what. The same arguments give the same bytes.
package render

import (
	"bytes"
	"errors"
	"fmt"
	"iter"

	"guidecoat/journal/measure"
	"guidecoat/journal/parallel"
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

// A Store keeps pictures by their names. It may lose any, and is asked by several at once.
type Store interface {
	Get(name string) ([]byte, bool)
	Put(name string, data []byte)
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

type page struct {
	name string
	path string // of the one that the navigation leads to; "" for none
	nav  string // what the navigation calls it
	// shown tells whether the view calls for such pages.
	shown func(*site) bool
	// each returns them, in order.
	each func(*site) []sheet
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

// Where the pages stand that the navigation leads to.
const (
	buildFront    = "index.html"
	sessionsFront = "sessions/index.html"
	moneyFront    = "money.html"
	snagsFront    = "snags.html"
	partsFront    = "parts.html"
	measuredFront = "measured.html"
	packFront     = "pack.html"
	sellingFront  = "selling.html"
	pagesFront    = "pages/index.html"
	notesFront    = "notes/index.html"
)

// pages is every sort of page there is, in the order of the navigation.
var pages = []page{
	{"build", buildFront, "Build", func(*site) bool { return true }, buildSheets},
	{"sessions", sessionsFront, "Sessions", hasSessions, sessionsSheets},
	{"session", "", "", hasSessions, sessionSheets},
	{"album", albumFront, "Pictures", hasAlbum, albumSheets},
	{"shot", "", "", hasAlbum, shotSheets},
	{"money", moneyFront, "Money", hasMoney, moneySheets},
	{"snags", snagsFront, "Snags", func(s *site) bool { return len(s.v.Snags) > 0 }, snagsSheets},
	{"parts", partsFront, "Parts", func(s *site) bool { return len(s.v.Parts) > 0 }, partsSheets},
	{"measured", measuredFront, "Measured", hasMeasured, measuredSheets},
	{"pack", packFront, "Handover record", func(s *site) bool { return s.v.Handover != nil }, packSheets},
	{"selling", sellingFront, "Selling", func(s *site) bool { return s.v.Selling != nil }, sellingSheets},
	{"extra", "", "", func(*site) bool { return true }, extraSheets},
	{"notes", notesFront, "Notes", func(s *site) bool { return len(s.o.Notes) > 0 }, notesSheets},
	{"note", "", "", func(*site) bool { return true }, noteSheets},
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
	front      *front              // the picture that stands for the build; nil for none
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

// Files are those of a site, each made shortly before it is asked for. After an
// error no file follows, but all others are still tried, so that everything that is
// wrong is said at once: the error comes last.
type Files = iter.Seq2[place.File, error]

// A job makes one file, or several that belong together.
type job func() ([]place.File, error)

// Site makes the files of the site. An error is one that concerns all of them.
func Site(v *view.View, o Options) (Files, error) {
	s, err := prepare(v, o)
	if err != nil {
		return nil, err
	}
	return stream(s.jobs()), nil
}

// jobs make every file of the site.
func (s *site) jobs() []job {
	jobs := s.commonJobs()
	jobs = append(jobs, pick.Map(s.todo, func(t task) job { return func() ([]place.File, error) { return s.make(t) } })...)
	return append(jobs, s.fileJobs()...)
}

// prepare settles all that the pages share, and which pages there will be.
func prepare(v *view.View, o Options) (*site, error) {
	s := &site{voice: voiceOf(v, o), v: v, o: o, md: markdown.New(), progress: v.Progress(), series: v.Series()}
	if !v.AsTyped {
		s.o.Notes = nil
	}
	s.inYears = s.lastsYears()
	s.nameLines()
	s.namePaths()
	if err := s.lookAtFiles(); err != nil {
		return nil, err
	}
	s.taped, s.tapedTo = s.fixes()
	bindAlbum(s)
	bindPack(s)
	s.front = findFront(s)
	if o.garage != "" {
		s.nav = []Link{{Text: o.garage, Href: "../index.html"}}
	}
	for _, p := range pages {
		if !p.shown(s) {
			continue
		}
		for _, sh := range p.each(s) {
			if sh.path == p.path {
				sh.nav = s.Word(p.nav)
			}
			if sh.nav != "" {
				s.nav = append(s.nav, Link{Text: sh.nav, Href: sh.path, Typed: p.name == "extra" && sh.path != pagesFront})
			}
			s.todo, s.sheets = append(s.todo, task{sh, p.name}), append(s.sheets, sh.path)
		}
	}
	return s, nil
}

// commonJobs make the files that are neither pages nor the build's own.
func (s *site) commonJobs() []job { return append([]job{s.style}, machineJobs(s)...) }

// make makes a page.
func (s *site) make(t task) ([]place.File, error) {
	p := leaf{site: s, task: t}
	page := markup.Page(s.Word, s.typed, func(w *markup.W) {
		p.W = w
		s.frame(t).write(w, func() { t.main(&p) })
	})
	if p.err != nil {
		return nil, fmt.Errorf("%s: %w", t.path, p.err)
	}
	return []place.File{{Path: t.path, Data: page}}, nil
}

// spoken is the language of the pages, "" where the notes have it too.
func (s *voice) spoken() string {
	if s.typed == "" {
		return ""
	}
	return s.Code
}

// style makes the style, and beside it the pictures that a theme of one's own has.
func (s *site) style() ([]place.File, error) {
	css := append(bytes.Clone(s.o.Theme.Style), markdown.CSS()...)
	if isUncleared(s) { // in the margin of every sheet that is printed, besides the head of every page
		css = append(css, "@page { @bottom-center { content: \""+s.Word(uncleared)+"\"; font: bold 9pt sans-serif; } }\n"...)
	}
	files := []place.File{{Path: "style.css", Data: css}, {Path: iconName, Data: []byte(icon)}}
	if s.v.Handover != nil {
		files = append(files, place.File{Path: recordStyle, Data: s.o.Theme.Record})
	}
	for _, p := range s.o.Theme.Pictures {
		data, err := photo.Clean(p.Name, p.Data)
		if err != nil {
			return nil, fmt.Errorf("the theme's %s: %w", p.Name, err)
		}
		files = append(files, place.File{Path: p.Name, Data: data})
	}
	return files, nil
}

// ahead is how many files a core makes before they are asked for.
const ahead = 8

// stream does the jobs on every core and yields what they make in the order of the jobs.
func stream(jobs []job) Files {
	type made struct {
		files []place.File
		err   error
	}
	return func(yield func(place.File, error) bool) {
		var errs []error
		for m := range parallel.Ordered(len(jobs), ahead, func(i int) (m made) { m.files, m.err = jobs[i](); return m }) {
			if m.err != nil {
				errs = append(errs, m.err)
			}
			for _, f := range m.files {
				if errs == nil && !yield(f, nil) {
					return
				}
			}
		}
		if err := errors.Join(errs...); err != nil {
			yield(place.File{}, err)
		}
	}
}

// collect takes all files at once.
func collect(files Files) ([]place.File, error) {
	var list []place.File
	for f, err := range files {
		if err != nil {
			return nil, err
		}
		list = append(list, f)
	}
	return list, nil
}
