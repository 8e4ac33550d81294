package render

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal/view"
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
	Mark       string // what the reader must not miss on any page
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
	Volumes     []Shelf       // the pages of a list that is too long for one
	Version     string
	Machine     // what it holds for programs
}

// copies says on every page for whom it was made.
var copies = map[view.Audience]string{
	view.ForBuyer:    "The buyer’s copy",
	view.ForWorkshop: "The workshop copy: not for publication",
}

// frame makes the frame of the page at that path.
func (s *site) frame(at, kind, heading, description string) Frame {
	f := Frame{Site: s.v.Name, Root: root(at), Heading: heading, Title: heading + " · " + s.v.Name, Description: shorten(description, 160), Kind: kind,
		NoIndex: s.v.Audience != view.ForPublic, Safety: s.v.Safety, AsOf: when(s.v.AsOf), Newest: when(s.v.Newest), Version: s.o.Version, Machine: s.machine(at)}
	if at == "index.html" {
		f.Title = s.v.Name
	}
	f.Description = cmp.Or(f.Description, f.Title) // a page may have no words

	if s.uncleared() { // browsers print the title above each sheet
		f.Title = "Not cleared · " + f.Title
	}
	if s.o.BaseURL != "" {
		base := strings.TrimSuffix(s.o.BaseURL, "/") + "/"
		f.Canonical = base + strings.TrimSuffix(at, "index.html")
		if s.front != nil {
			f.Image = base + s.front.picture.Href
		}
	}
	f.Top = s.tops[s.topKey(at)]
	return f
}

// current is the entry of the navigation that a page belongs to, and how
// aria-current says so: the page itself, or the list that it is in.
func (s *site) current(at string) (href, how string) {
	for _, l := range s.nav {
		if l.Href == at {
			return l.Href, "page"
		}
	}
	for _, l := range s.nav {
		if slices.Contains(listsOf(at), l.Href) {
			return l.Href, "true"
		}
	}
	return "", ""
}

// topKey is what tells headers apart.
func (s *site) topKey(at string) string {
	href, how := s.current(at)
	return root(at) + how + href
}

// makeTop makes the header of the page at that path, unless another page has the same.
func (s *site) makeTop(at string) error {
	key := s.topKey(at)
	if _, made := s.tops[key]; made {
		return nil
	}
	t := Top{Site: s.v.Name, Root: root(at), Audience: copies[s.v.Audience]}
	if s.uncleared() {
		t.Mark = uncleared
	}
	here, how := s.current(at)
	for _, l := range s.nav {
		link := Link{Text: l.Text, Href: t.Root + l.Href}
		if l.Href == here {
			link.Current = how
		}
		t.Nav = append(t.Nav, link)
	}
	var b strings.Builder
	err := s.o.Theme.Page(pages[0].name).ExecuteTemplate(&b, "top", t)
	s.tops[key] = template.HTML(b.String())
	return err
}

// mostPages is how many extra pages the navigation names.
const mostPages = 12

// navigation lists the pages there are, so that nothing leads to one that is not.
func (s *site) navigation() []Link {
	var nav []Link
	add := func(there bool, text, href string) {
		if there {
			nav = append(nav, Link{Text: text, Href: href})
		}
	}
	add(s.o.garage != "", s.o.garage, "../index.html")
	add(true, "Build", "index.html")
	add(len(s.v.Sessions) > 0, "Sessions", "sessions/index.html")
	add(s.hasMoney(), "Money", "money.html")
	add(len(s.v.Snags) > 0, "Snags", "snags.html")
	add(len(s.v.Parts) > 0, "Parts", "parts.html")
	add(s.hasMeasured(), "Measured", "measured.html")
	add(s.v.Handover != nil, "Handover record", "pack.html")
	shown := min(len(s.v.Pages), mostPages) // every page has the navigation
	for _, p := range s.v.Pages[:shown] {
		add(true, p.Title, s.paths.pages[p.Path])
	}
	add(shown < len(s.v.Pages), "All pages", pagesFront)
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
