// Package render turns a view of a build into the files of a site.
//
// It formats and arranges; it computes no figure and decides nothing about who may
// see what. The same arguments give the same bytes.
package render

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/parallel"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
	"guidecoat/render/photo"
	"guidecoat/render/place"
	"guidecoat/render/tongue"
)

// The table of pages, and the site that they and all other files make.

type pageRow struct {
	name string
	path string // of the one that the navigation leads to; "" for none
	nav  string // what the navigation calls it
	// shown tells whether the view calls for such pages.
	shown func(*site) bool
	// each returns them, in order.
	each func(*site) []sheet
}

// pageTable is every sort of page there is, in the order of the navigation.
var pageTable = []pageRow{
	{"build", buildFront, "Build", always[*site], buildSheets},
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
	{"extra", "", "", always[*site], extraSheets},
	{"notes", notesFront, "Notes", func(s *site) bool { return len(s.o.Notes) > 0 }, notesSheets},
	{"note", "", "", always[*site], noteSheets},
}

// Labels are the words that a theme may replace. What warns, or stands in the way of the sale, is not among them.
var Labels = []string{
	// What the navigation and the headings of pages say.
	"Build", "Sessions", "Pictures", "Money", "Snags", "Parts", "Measured", "Measured and checked", "Handover record", "Selling", "Notes", "The notes as typed",
	// Headings within pages.
	"Newest session", "Outstanding", "Temporary fixes", "Temporary fixes over time", "To be done", "Told to the buyer", "Stage by stage", "The vehicle", "Hours by week", "Time", "Checked", "Fault scans", "Opened", "Cleared", "Earlier", "Later",
	"The sale", "Forecast", "Running total", "By stage", "By stage and category", "Budgets", "Against the budgets", "What matters most", "Go on or stop", "By category", "By supplier", "Every line",
	"An advert", "Open snags over time", "Readings", "Checks", "Damage", "Fasteners",
	// Key figures.
	"Work", "Paid", "Net on the work", "Sold for", "Profit", "Parts fitted", "Checks done", "Odometer", "Money back", "Net", "Kept in the garage", "Ready", "Final cost", "Profit per hour", "Break-even", "Floor", "Asking price", "Surcharge to come",
}

// uncleared is what every page of a pack says that was written although something stops the sale.
const uncleared = "Not cleared for sale: this record has open requirements"

func isUncleared(s *site) bool { return s.v.Handover != nil && !s.v.Handover.Cleared }

func (s *site) frame(t task) frame {
	f := frame{Tongue: s.Tongue, typed: t.typed, kind: t.kind, site: s.v.Name, root: root(t.path), heading: t.heading, title: t.heading + " · " + s.v.Name, banner: s.Word(s.v.Banner),
		noIndex: !s.v.Indexed, safety: s.v.Safety && !t.calm, asOf: s.v.AsOf, newest: s.v.Newest, version: s.o.Version, nav: s.navigation(t.path),
		canonical: s.address(t.path), Machine: machineOf(s, t.path)}
	if t.path == buildFront {
		f.title = s.v.Name
	}
	f.description = cmp.Or(shorten(t.description, 160), f.title)
	if isUncleared(s) { // browsers print the title above each sheet
		f.title, f.mark = s.Say("Not cleared · %s", f.title), s.Word(uncleared)
	}
	f.previews = s.previews()
	return f
}

// navigation is that of the page at a path, and says where you are.
func (s *site) navigation(at string) []Link {
	nav := slices.Clone(s.nav)
	here, how := slices.IndexFunc(nav, func(l Link) bool { return l.Href == at }), "page"
	if here < 0 {
		here, how = slices.IndexFunc(nav, func(l Link) bool { return slices.Contains(listsOf(at), l.Href) }), "true"
	}
	if here >= 0 {
		nav[here].Current = how
	}
	for i := range nav {
		nav[i].Href = root(at) + nav[i].Href
	}
	return nav
}

// previews are the picture of the build and the strip of its fixes; none without a base for their addresses.
func (s *site) previews() []preview {
	var list []preview
	if s.o.BaseURL == "" {
		return nil
	}
	if s.front != nil {
		x := s.front.picture
		list = append(list, preview{s.address(x.File), cmp.Or(x.Alt, s.v.Name), x.Width, x.Height})
	}
	if hasStrip(s) {
		list = append(list, preview{s.address(stripName), s.stripWords(s.taped), stripWidth, stripHeight})
	}
	return list
}

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
	jobs = append(jobs, pick.Map(s.todo, func(t task) job { return func() ([]place.File, error) { return s.makePage(t) } })...)
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
	for _, p := range pageTable {
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

func voiceOf(v *view.View, o Options) *voice {
	x := &voice{tongue.Of(v.Language, o.Theme.Words), v.Currency, v.Typed}
	if x.typed == x.Code {
		x.typed = ""
	}
	return x
}

// lastsYears tells whether what the view tells lies in more than one year.
func (s *site) lastsYears() bool {
	days := pick.Map(s.v.Sessions, func(x *view.SessionView) measure.Date { return x.Date })
	for _, x := range s.v.Parts {
		days = append(days, pick.Map(x.Events, func(e view.PartEvent) measure.Date { return e.Date })...)
	}
	if s.v.Money != nil {
		days = append(days, pick.Map(s.v.Money.Lines, func(l *view.MoneyLine) measure.Date { return l.Date })...)
	}
	return len(days) > 0 && inYears(slices.Min(days), slices.Max(days))
}

func (s *site) namePaths() {
	p := &s.paths
	p.sessions, p.noteOf, p.pages, p.notes, p.byNote = map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}
	taken := map[string]int{"sessions/index.html": 1, "notes/index.html": 1, pagesFront: 1}
	p.taken = taken
	for _, x := range s.v.Sessions {
		if isEmpty(s, x) { // it stands in the list of sessions, and leads nowhere
			continue
		}
		s.sessions = append(s.sessions, x)
		at := unique(taken, "sessions/", path.Base(x.Name), ".html")
		p.sessions[x.Name], p.byNote[x.Path], p.noteOf[x.Name] = at, at, x.Path
	}
	for _, x := range s.v.Pages {
		at := unique(taken, "pages/", x.Title, ".html")
		p.pages[x.Path], p.byNote[x.Path] = at, at
	}
	for _, n := range s.o.Notes {
		p.notes[n.File.Path] = unique(taken, "notes/", strings.TrimSuffix(n.File.Path, ".md"), ".html")
	}
	p.byNote[path.Join(s.v.BuildPath, "build.md")] = "index.html"
	p.snags, p.ids = map[*view.SnagView]string{}, map[string]string{}
	p.snagOf, p.partOf = map[string]*view.SnagView{}, map[string]string{}
	anchors := map[string]int{}
	for _, x := range s.v.Snags {
		id := x.ID
		if id == "" { // ids of the notes hold no underscore
			id = "_" + slug(strings.TrimSuffix(x.Note, ".md")) + "_" + strconv.Itoa(x.Line)
		}
		p.snags[x] = unique(anchors, "", id, "")
		if x.ID != "" {
			p.snagOf[x.ID] = x
		}
	}
	for _, x := range s.v.Parts {
		p.partOf[x.ID] = x.Description
	}
	for _, bind := range []func(*site){bindSessions, bindLedger, bindSnags, bindParts, bindMeasured, bindNotes} {
		bind(s)
	}
	for id, x := range p.snagOf {
		p.ids[id] = s.snags.to("", p.snags[x])
	}
	for id := range p.partOf {
		p.ids[id] = s.parts.to("", id)
	}
}

// findFront takes the job card's first picture, else that of the newest session, else any.
func findFront(s *site) *frontPicture {
	const at = "index.html"
	all := s.pictures(at, s.v.Files, "")
	if all == nil {
		return nil
	}
	if list := bodyPictures(s, at, s.v.About); len(list) > 0 {
		return &frontPicture{list[0], nil}
	}
	for i := len(s.sessions) - 1; i >= 0; i-- {
		if list := bodyPictures(s, at, s.sessions[i].Body); len(list) > 0 {
			return &frontPicture{list[0], s.sessions[i]}
		}
	}
	return &frontPicture{all[0], nil}
}

// commonJobs make the files that are neither pages nor the build's own.
func (s *site) commonJobs() []job { return append([]job{s.style}, machineJobs(machines, s)...) }

// makePage makes a page.
func (s *site) makePage(t task) ([]place.File, error) {
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

// madeAhead is how many files a core makes before they are asked for.
const madeAhead = 8

// stream does the jobs on every core and yields what they make in the order of the jobs.
func stream(jobs []job) Files {
	type made struct {
		files []place.File
		err   error
	}
	return func(yield func(place.File, error) bool) {
		var errs []error
		for m := range parallel.Ordered(len(jobs), madeAhead, func(i int) (m made) { m.files, m.err = jobs[i](); return m }) {
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
