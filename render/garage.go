package render

import (
	"errors"
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// garagePage is the name of the template of a garage's front page. It is the one
// page that is not about a single build.
const garagePage = "garage"

// A Garage is several builds side by side, as one audience may see them.
type Garage struct {
	Name   string
	Builds []Build // in the order in which they are listed
}

// A Build is one build of a garage's site.
type Build struct {
	Path  string // its folder in the garage
	View  *view.View
	Notes []RawNote
}

type garageSheet struct {
	Frame
	Lead   string
	Builds []BuildCard
	Photos bool // of some build; the others then have a blank in its place
}

// A BuildCard is one build on the garage's front page.
type BuildCard struct {
	Name    template.HTML
	Photo   *Picture
	Vehicle string
	State   string // sold, open or clear
	Status  string
	Points  []template.HTML // what is dangerous, held together for now, or not described
	Figures []Plate
	Newest  template.HTML
}

// A garageSite is a garage with all that its files share.
type garageSite struct {
	Garage
	o        Options
	audience view.Audience
	builds   []housed
}

// A housed is the site of a build in its folder of the garage's site.
type housed struct {
	folder string
	*site
}

// GarageSite makes every file of a garage's site: a front page, and below it the
// site of each build in a folder of its own.
func GarageSite(g Garage, o Options) (Files, error) {
	s, err := prepareGarage(g, o)
	if err != nil {
		return nil, err
	}
	jobs := s.jobs()
	for _, b := range s.builds {
		for _, j := range b.site.jobs() {
			jobs = append(jobs, within(b.folder, j))
		}
	}
	return stream(jobs), nil
}

func prepareGarage(g Garage, o Options) (*garageSite, error) {
	s := &garageSite{Garage: g, o: o, audience: view.ForPublic}
	taken := map[string]int{}
	var errs []error
	for _, b := range g.Builds {
		folder := unique(taken, "", slug(b.Path), "")
		made, err := prepare(b.View, below(o, g.Name, folder, b.Notes))
		if err != nil {
			errs = append(errs, err)
			continue
		}
		s.builds, s.audience = append(s.builds, housed{folder, made}), b.View.Audience
	}
	return s, errors.Join(errs...)
}

// jobs make the files that belong to no single build.
func (s *garageSite) jobs() []job {
	jobs := []job{s.front, (&site{v: &view.View{}, o: s.o}).style}
	for _, m := range s.machines() {
		jobs = append(jobs, m.make)
	}
	return jobs
}

func (s *garageSite) front() ([]place.File, error) {
	sheet := garageSheet{Lead: count(len(s.builds), "build"), Frame: Frame{Site: s.Name, Title: s.Name, Heading: s.Name,
		Description: "The builds of " + s.Name + ".", Kind: garagePage, NoIndex: s.audience != view.ForPublic, Version: s.o.Version, Canonical: addressAt(s.o.BaseURL, "")}}
	var nav []Link
	for _, b := range s.builds {
		sheet.Builds = append(sheet.Builds, b.card(b.folder))
		nav = append(nav, Link{Text: b.v.Name, Href: b.folder + "/index.html"})
		sheet.Safety = sheet.Safety || b.v.Safety
		sheet.AsOf = when(b.v.AsOf)
		if f := b.site.front; f != nil {
			sheet.Photos = true
			if sheet.Image == "" {
				sheet.Image = addressAt(b.o.BaseURL, f.picture.Href)
			}
		}
		if sheet.AsOf != "" {
			sheet.Lead = count(len(s.builds), "build") + ", as on " + day(b.v.AsOf)
		}
	}
	for _, m := range s.machines() {
		if m.words != "" {
			sheet.Downloads = append(sheet.Downloads, Link{Text: m.words, Href: m.path})
		}
		if m.path == feedName {
			sheet.Feed = m.path
		}
	}
	var top, b strings.Builder
	page := s.o.Theme.Page(garagePage)
	if err := page.ExecuteTemplate(&top, "top", Top{Site: s.Name, Audience: copies[s.audience], Nav: nav}); err != nil {
		return nil, err
	}
	sheet.Top = template.HTML(top.String())
	err := page.Execute(&b, sheet)
	return []place.File{{Path: "index.html", Data: []byte(b.String())}}, err
}

// within makes what a job makes in a folder of the site.
func within(folder string, j job) job {
	return func() ([]place.File, error) {
		files, err := j()
		files = slices.Clone(files) // a draft keeps what it made
		for i := range files {
			files[i].Path = folder + "/" + files[i].Path
		}
		return files, err
	}
}

// below are the options of the site of a build in that folder of the garage's site.
func below(o Options, garage, folder string, notes []RawNote) Options {
	o.Notes, o.garage = notes, garage
	if o.BaseURL != "" {
		o.BaseURL = strings.TrimSuffix(o.BaseURL, "/") + "/" + folder + "/"
	}
	return o
}

// card sums the build up for the garage's front page.
func (s *site) card(folder string) BuildCard {
	var p buildPage
	s.status(&p)
	c := BuildCard{Name: link(folder+"/index.html", s.v.Name), State: p.State, Status: p.Status, Newest: when(s.v.Newest)}
	for _, w := range s.warnings() {
		c.Points = append(c.Points, link(folder+"/"+w.Href, w.Text))
	}
	for _, w := range s.withheld() {
		c.Points = append(c.Points, link("", w))
	}
	if s.front != nil {
		c.Photo = s.front.picture.below(folder)
	}
	var known []string
	for _, name := range []string{"year", "make", "model"} {
		for _, d := range s.v.Vehicle {
			if strings.EqualFold(d.Name, name) {
				known = append(known, d.Value)
			}
		}
	}
	c.Vehicle = strings.Join(known, " ")
	for _, f := range s.buildPlates() {
		f.Href = "" // it would lead from the build's page
		c.Figures = append(c.Figures, f)
	}
	return c
}
