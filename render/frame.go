package render

import (
	"html/template"
	"path"
	"strings"

	"guidecoat/journal"
)

// A Link is words that lead somewhere, or plain words where Href is "".
type Link struct {
	Text, Href string
	Current    string // as aria-current says it: "page" where it leads to the page it stands on
}

// A Top is the header of pages. Many pages have the same, so it is made once for them.
type Top struct {
	Site, Root string
	Audience   string // a word on whom the copy is for; "" for the public
	Nav        []Link
}

// A Plate is one key figure.
type Plate struct{ Label, Value, Note, Href string }

// A Frame is what every page has around its own content.
type Frame struct {
	Site        string // the build's name
	Root        string // leads to the top of the site
	Title       string // of the window
	Heading     string // the one h1
	Description string
	Canonical   string // the page's own address; "" where no base is known
	Image       string // the address of a picture for previews, likewise
	Kind        string // the name of the page's template
	NoIndex     bool
	Safety      bool
	Top         template.HTML // the header with the navigation
	AsOf        template.HTML // the date the site was asked for
	Newest      template.HTML // that of the newest session
	Version     string
}

// copies says on every page for whom it was made.
var copies = map[journal.Audience]string{
	journal.ForBuyer:    "The buyer’s copy",
	journal.ForWorkshop: "The workshop copy: not for publication",
}

// frame makes the frame of the page at that path.
func (s *site) frame(at, kind, heading, description string) Frame {
	f := Frame{Site: s.v.Name, Root: root(at), Heading: heading, Title: heading + " · " + s.v.Name, Description: shorten(description, 160), Kind: kind,
		NoIndex: s.v.Audience != journal.ForPublic, Safety: s.v.Safety, AsOf: when(s.v.AsOf), Newest: when(s.v.Newest), Version: s.o.Version}
	if at == "index.html" {
		f.Title = s.v.Name
	}
	if s.o.BaseURL != "" {
		base := strings.TrimSuffix(s.o.BaseURL, "/") + "/"
		f.Canonical = base + strings.TrimSuffix(at, "index.html")
		if p := s.firstPicture(); p != "" {
			f.Image = base + p
		}
	}
	f.Top = s.top(at)
	return f
}

// top makes the header of the page at that path, or remembers it.
func (s *site) top(at string) template.HTML {
	t := Top{Site: s.v.Name, Root: root(at), Audience: copies[s.v.Audience]}
	key := t.Root
	for _, l := range s.nav {
		current := ""
		switch {
		case l.Href == at:
			current = "page"
		case strings.HasSuffix(l.Href, "/index.html") && path.Dir(l.Href) == path.Dir(at):
			current = "true" // one of those it lists
		}
		if current != "" {
			key += current + l.Href
		}
		t.Nav = append(t.Nav, Link{l.Text, t.Root + l.Href, current})
	}
	if made, ok := s.tops.Load(key); ok {
		return made.(template.HTML)
	}
	var b strings.Builder
	if err := s.o.Theme.Page("build").ExecuteTemplate(&b, "top", t); err != nil {
		panic(err)
	}
	s.tops.Store(key, template.HTML(b.String()))
	return template.HTML(b.String())
}

// firstPicture is the picture that stands for the build in previews.
func (s *site) firstPicture() string {
	for _, p := range s.v.Files {
		if f := s.files[p]; f != nil && f.picture != nil {
			return f.at
		}
	}
	return ""
}

// navigation lists the pages there are, so that nothing leads to one that is not.
func (s *site) navigation() []Link {
	var nav []Link
	add := func(there bool, text, href string) {
		if there {
			nav = append(nav, Link{Text: text, Href: href})
		}
	}
	add(true, "Build", "index.html")
	add(len(s.v.Sessions) > 0, "Sessions", "sessions/index.html")
	add(s.hasMoney(), "Money", "money.html")
	add(len(s.v.Snags) > 0, "Snags", "snags.html")
	add(len(s.v.Parts) > 0, "Parts", "parts.html")
	add(s.hasMeasured(), "Measured", "measured.html")
	for _, p := range s.v.Pages {
		add(true, p.Title, s.paths.pages[p.Path])
	}
	add(len(s.o.Notes) > 0, "Notes", "notes/index.html")
	return nav
}

// one returns the sheet of a page that the site has once, if it has it.
func one(there bool, path string, data func() (any, error)) []sheet {
	if !there {
		return nil
	}
	return []sheet{{path, data}}
}
