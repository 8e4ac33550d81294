package render

import (
	"cmp"
	"encoding/json"
	"encoding/xml"
	"errors"
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
	"guidecoat/render/place"
	"guidecoat/render/tongue"
)

// A garage is several builds side by side. A draft makes files of a site, or of a garage's, as somebody asks for them.

// A garageSite is a garage with all that its files share.
type garageSite struct {
	Garage
	o      Options
	builds []housed
}

// A housed is the site of a build in its folder of the garage's site.
type housed struct {
	folder string
	*site
}

// GarageSite makes a front page, and below it the site of each build in a folder of its own.
func GarageSite(g Garage, o Options) (Files, error) {
	s, err := prepareGarage(g, o)
	if err != nil {
		return nil, err
	}
	jobs := s.ownJobs()
	for _, b := range s.builds {
		jobs = append(jobs, pick.Map(b.site.jobs(), func(j job) job { return underFolder(b.folder, j) })...)
	}
	return stream(jobs), nil
}

func prepareGarage(g Garage, o Options) (*garageSite, error) {
	s := &garageSite{Garage: g, o: o}
	taken := map[string]int{}
	var errs []error
	for _, b := range g.Builds {
		folder := unique(taken, "", slug(b.Path), "")
		made, err := prepare(b.View, inFolder(o, g.Name, folder, b.Notes))
		if err != nil {
			errs = append(errs, err)
			continue
		}
		s.builds = append(s.builds, housed{folder, made})
	}
	return s, errors.Join(errs...)
}

func (s *garageSite) ownJobs() []job {
	return append([]job{s.frontPage, s.own().style}, machineJobs(garageMachines, s)...)
}

func (s *garageSite) frontPage() ([]place.File, error) {
	t := s.commonTongue()
	lead := t.Say("%d builds", len(s.builds))
	f := frame{Tongue: t, kind: "garage", site: s.Name, title: s.Name, heading: s.Name, description: t.Say("The builds of %s.", s.Name), noIndex: !s.Indexed,
		version: s.o.Version, canonical: addressAt(s.o.BaseURL, ""), banner: t.Word(s.Banner)}
	photos := false // of some build; the others then have a blank in its place
	for _, b := range s.builds {
		f.nav = append(f.nav, Link{Text: b.v.Name, Href: b.folder + "/index.html"})
		f.safety = f.safety || b.v.Safety
		if f.asOf = b.v.AsOf; f.asOf != 0 {
			lead = t.Say("%d builds, as on %s", len(s.builds), f.asOf)
		}
		photos = photos || b.site.front != nil
		if len(f.previews) == 0 { // of the first build that has any
			f.previews = b.site.previews()
		}
	}
	f.Downloads = downloads(garageMachines, s, t, "")
	if s.hasFeed() {
		f.Feed = feedName
	}
	page := markup.Page(t.Word, "", func(w *markup.W) {
		f.write(w, func() {
			w.Raw(`<header class="head">
<p class="eyebrow">`).Text(lead).Raw(`</p>
`)
			typedHeading(w, s.Name).Raw(`</header>
<ul class="garage">
`)
			pictured := false
			for _, b := range s.builds {
				b.card(w, photos, !pictured)
				pictured = pictured || b.site.front != nil
			}
			w.Raw("</ul>\n")
		})
	})
	return []place.File{{Path: "index.html", Data: page}}, nil
}

// commonTongue is the language of all builds, and English where they differ.
func (s *garageSite) commonTongue() *tongue.Tongue {
	code := ""
	for i, b := range s.builds {
		if code = b.Code; i > 0 && code != s.builds[0].Code {
			code = tongue.English
			break
		}
	}
	return tongue.Of(code, s.o.Theme.Words)
}

// card sums the build up for the garage's front page.
func (s housed) card(w *markup.W, photos, first bool) {
	st := statusOf(s.site)
	w.Raw(`<li class="card `).Text(st.state).Raw("\">\n")
	if s.site.front != nil {
		pic := s.site.front.picture.below(s.folder)
		pic.Eager = first
		writeImage(w, "shot", pic, "(min-width: 60em) 36rem, 94vw").Raw("\n")
	} else {
		w.If(photos, "<p class=\"shot blank\">{No picture yet}</p>\n")
	}
	detail := func(name string) string {
		return pick.First(s.v.Vehicle, func(d view.Detail) bool { return strings.EqualFold(d.Name, name) }).Value
	}
	vehicle := nonEmpty(detail("year"), detail("make"), detail("model"))
	writeLink(w.Raw("<h2>"), Link{Text: s.v.Name, Href: s.folder + "/index.html"}).Raw("</h2>\n").With(`<p class="about">`, strings.Join(vehicle, " "), "</p>\n").Raw(`<p class="status"><strong>`).Text(st.words).Quote(": ", st.stage, "").Raw("</strong>")
	points := warningsOf(s.site)
	for i := range points {
		points[i].Href = s.folder + "/" + points[i].Href
	}
	points = append(points, pick.Map(s.withheldWords(s.v.Withheld), func(words string) Link { return Link{Text: words} })...)
	writePoints(w, points).Raw("</p>\n")
	plates := buildPlates(s.site)
	for i := range plates {
		plates[i].Href = "" // it would lead from the build's page
	}
	writePlates(w, plates)
	w.Raw("\n")
	if s.v.Newest != 0 {
		writeTime(w.Raw(`<p class="about">{Newest session} `), s.v.Newest, s.Day(s.v.Newest)).Raw("</p>\n")
	}
	w.Raw("</li>\n")
}

// underFolder makes what a job makes in a folder of the site.
func underFolder(folder string, j job) job {
	return func() ([]place.File, error) {
		files, err := j()
		files = slices.Clone(files) // a draft keeps what it made
		for i := range files {
			files[i].Path = folder + "/" + files[i].Path
		}
		return files, err
	}
}

// inFolder are the options of the site of a build in that folder of the garage's site.
func inFolder(o Options, garage, folder string, notes []RawNote) Options {
	o.Notes, o.garage, o.BaseURL = notes, garage, addressAt(o.BaseURL, folder+"/")
	return o
}

// garageMachines are a garage's files for programs, besides those of each build.
var garageMachines = []machine[*garageSite]{
	{feedName, "Feed", (*garageSite).hasFeed, oneFile((*garageSite).feed)},
	{"garage.json", "Data (JSON)", always[*garageSite], oneFile((*garageSite).json)},
	{"sitemap.xml", "", func(s *garageSite) bool { return hasSitemap(s.own()) }, (*garageSite).sitemap},
	{"robots.txt", "", func(s *garageSite) bool { return hasRobots(s.own()) }, oneFile(func(s *garageSite) ([]byte, error) { return makeRobots(s.own()) })},
}

// own is the garage as if it were a build without notes.
func (s *garageSite) own() *site {
	return &site{voice: &voice{Tongue: s.commonTongue()}, v: &view.View{Copy: s.Copy}, o: s.o}
}

func (s *garageSite) hasFeed() bool {
	return slices.ContainsFunc(s.builds, func(b housed) bool { return hasFeed(b.site) })
}

// reference is the address of a file of the garage's site, relative where no base is known.
func (s *garageSite) reference(at string) string { return cmp.Or(addressAt(s.o.BaseURL, at), at) }

// feed is that of the newest sessions of all builds, with the ids that they have in the feed of their build.
func (s *garageSite) feed() ([]byte, error) {
	f := newFeed(cmp.Or(addressAt(s.o.BaseURL, ""), uuid("garage\x00"+s.Name)), s.Name, s.commonTongue(), s.o, s.reference)
	type told struct {
		of housed
		x  *view.SessionView
	}
	var list []told
	for _, b := range s.builds {
		for _, x := range slices.Backward(b.sessions) {
			list = append(list, told{b, x})
		}
	}
	slices.SortStableFunc(list, func(a, b told) int { return cmp.Compare(b.x.Date, a.x.Date) })
	f.Updated = moment(list[0].x.Date.String())
	for _, l := range list[:min(len(list), feedEntries)] {
		e := feedEntry(l.of.site, l.x)
		e.Title = l.of.v.Name + ": " + e.Title
		e.Link.Href = s.reference(l.of.folder + "/" + l.of.paths.sessions[l.x.Name])
		f.Entries = append(f.Entries, e)
	}
	return xmlFile(xml.MarshalIndent(f, "", " "))
}

type listedBuild struct {
	Build  string  `json:"build"`
	State  string  `json:"state"` // open, clear or sold
	Newest *string `json:"newest"`
	Page   string  `json:"page"`
	Data   string  `json:"data"`
}

func (s *garageSite) json() ([]byte, error) {
	list := []listedBuild{}
	for _, b := range s.builds {
		l := listedBuild{Build: b.v.Name, State: statusOf(b.site).state, Page: b.folder + "/index.html", Data: b.folder + "/build.json"}
		if hasFeed(b.site) {
			l.Newest = new(b.v.Newest.String())
		}
		list = append(list, l)
	}
	out, err := json.MarshalIndent(struct {
		Garage string        `json:"garage"`
		Builds []listedBuild `json:"builds"`
	}{s.Name, list}, "", "  ")
	return append(out, '\n'), err
}

// sitemap lists the pages of all builds: a host may well be told of no other.
func (s *garageSite) sitemap() ([]place.File, error) {
	list := []siteURL{{Loc: s.reference("index.html")}}
	for _, b := range s.builds {
		list = append(list, siteURLs(b.site)...)
	}
	return sitemapFiles(list, s.reference)
}

// A Draft is a site whose files are made as somebody asks for them, byte for byte as Site does. Several may use it.
type Draft struct {
	s      *site
	tasks  map[string]task
	files  map[string]string // which of the build's files is behind a path of the site
	common func() ([]place.File, error)
	below  map[string]*Draft // of a garage, by folder; it has nothing else but common
}

// NewDraft settles what the pages share. Its errors are those that concern all of them.
func NewDraft(v *view.View, o Options) (*Draft, error) {
	s, err := prepare(v, o)
	if err != nil {
		return nil, err
	}
	return draftOf(s), nil
}

func NewGarageDraft(g Garage, o Options) (*Draft, error) {
	s, err := prepareGarage(g, o)
	if err != nil {
		return nil, err
	}
	d := &Draft{below: map[string]*Draft{}, common: sync.OnceValues(func() ([]place.File, error) { return collect(stream(s.ownJobs())) })}
	for _, b := range s.builds {
		d.below[b.folder] = draftOf(b.site)
	}
	return d, nil
}

func draftOf(s *site) *Draft {
	d := &Draft{s: s, tasks: map[string]task{}, files: map[string]string{}}
	for _, t := range s.todo {
		d.tasks[t.path] = t
	}
	for p, f := range s.files {
		d.files[f.at] = p
		if f.picture != nil {
			for _, z := range f.picture.Sizes {
				d.files[picturePath(z)] = p
			}
		}
	}
	d.common = sync.OnceValues(func() ([]place.File, error) { return collect(stream(s.commonJobs())) })
	return d
}

// Make makes the file at a path, and those that come with it, such as other sizes of a picture.
func (d *Draft) Make(path string) ([]place.File, error) {
	folder, rest, _ := strings.Cut(path, "/")
	if b := d.below[folder]; b != nil {
		return underFolder(folder, func() ([]place.File, error) { return b.Make(rest) })()
	}
	if t, ok := d.tasks[path]; ok {
		return d.s.makePage(t)
	}
	p, ok := d.files[path]
	if !ok {
		return d.common()
	}
	return d.s.fileJob(p, d.s.files[p])
}
