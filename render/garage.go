package render

import (
	"html/template"
	"strings"

	"guidecoat/journal"
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
	View  *journal.View
	Notes []RawNote
}

type garageSheet struct {
	Frame
	Lead   string
	Builds []BuildCard
}

// A BuildCard is one build on the garage's front page.
type BuildCard struct {
	Name    template.HTML
	Photo   *Picture
	Vehicle string
	State   string // sold, open or clear
	Status  string
	Figures []Plate
	Newest  template.HTML
}

// GarageSite makes every file of a garage's site: a front page, and below it the
// site of each build in a folder of its own.
func GarageSite(g Garage, o Options) (Files, error) {
	var jobs []job
	sheet := garageSheet{Lead: count(len(g.Builds), "build")}
	taken := map[string]bool{}
	var nav []Link
	audience, asOf := journal.ForPublic, template.HTML("")
	for _, b := range g.Builds {
		folder := unique(taken, "", slug(b.Path), "")
		s, err := prepare(b.View, below(o, g.Name, folder, b.Notes))
		if err != nil {
			return nil, err
		}
		for _, j := range s.jobs() {
			jobs = append(jobs, within(folder, j))
		}
		sheet.Builds = append(sheet.Builds, s.card(folder))
		nav = append(nav, Link{Text: b.View.Name, Href: folder + "/index.html"})
		if audience, asOf = b.View.Audience, when(b.View.AsOf); asOf != "" {
			sheet.Lead = count(len(g.Builds), "build") + ", as on " + day(b.View.AsOf)
		}
	}
	sheet.Frame = Frame{Site: g.Name, Title: g.Name, Heading: g.Name, Description: "The builds of " + g.Name + ".", Kind: garagePage,
		NoIndex: audience != journal.ForPublic, AsOf: asOf, Version: o.Version}
	if o.BaseURL != "" {
		sheet.Canonical = strings.TrimSuffix(o.BaseURL, "/") + "/"
	}
	var top strings.Builder
	page := o.Theme.Page(garagePage)
	if err := page.ExecuteTemplate(&top, "top", Top{Site: g.Name, Audience: copies[audience], Nav: nav}); err != nil {
		return nil, err
	}
	sheet.Top = template.HTML(top.String())
	var b strings.Builder
	if err := page.Execute(&b, sheet); err != nil {
		return nil, err
	}
	front := func() ([]place.File, error) { return []place.File{{Path: "index.html", Data: []byte(b.String())}}, nil }
	return stream(append([]job{front, (&site{v: &journal.View{}, o: o}).style}, jobs...)), nil
}

// within makes what a job makes in a folder of the site.
func within(folder string, j job) job {
	return func() ([]place.File, error) {
		files, err := j()
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
	if o.Memory != nil {
		o.Memory = memoryBelow{o.Memory, folder}
	}
	if made := o.Made; made != nil {
		o.Made = func(path string) ([]byte, bool) { return made(folder + "/" + path) }
	}
	return o
}

// A memoryBelow is that of the site in a folder of the garage's.
type memoryBelow struct {
	Memory
	folder string
}

func (m memoryBelow) Stands(path string, of Digest) bool {
	return m.Memory.Stands(m.folder+"/"+path, of)
}
func (m memoryBelow) Made(path string, of Digest) { m.Memory.Made(m.folder+"/"+path, of) }

// card sums the build up for the garage's front page.
func (s *site) card(folder string) BuildCard {
	var p buildPage
	s.status(&p)
	c := BuildCard{Name: link(folder+"/index.html", s.v.Name), State: p.State, Status: p.Status, Newest: when(s.v.Newest)}
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
