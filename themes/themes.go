// Package themes holds the looks a site can have: for each theme a folder with its
// templates and its style, and nothing else. Themes are named after finishes.
package themes

import (
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidecoat/journal/near"
)

//go:embed all:primer
var embedded embed.FS

// Default is the theme of who asks for none.
const Default = "primer"

// A Theme is one look. Its templates are parsed once and may be used at the same
// time by any number of pages.
type Theme struct {
	Name  string
	Style []byte
	pages map[string]*template.Template
}

// Names are the themes there are.
func Names() []string {
	entries, _ := embedded.ReadDir(".") // the root is always there
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// Load returns the theme of that name.
func Load(name string) (*Theme, error) {
	names := Names()
	if !slices.Contains(names, name) {
		if n := near.Nearest(name, names); n != "" {
			return nil, fmt.Errorf("there is no theme %q; the nearest is %q", name, n)
		}
		return nil, fmt.Errorf("there is no theme %q; there is %s", name, strings.Join(names, ", "))
	}
	dir, err := fs.Sub(embedded, name)
	if err != nil {
		return nil, err
	}
	return Read(name, dir)
}

// Read reads a theme from its folder: style.css, and in templates one file for each
// page, named after it. Files whose name begins with an underscore hold what the
// pages share; each page is the shared template "frame" with its own "main" in it.
func Read(name string, dir fs.FS) (*Theme, error) {
	t := &Theme{Name: name, pages: map[string]*template.Template{}}
	var err error
	if t.Style, err = fs.ReadFile(dir, "style.css"); err != nil {
		return nil, err
	}
	shared, err := template.ParseFS(dir, "templates/_*.html")
	if err != nil {
		return nil, err
	}
	files, err := fs.Glob(dir, "templates/[^_]*.html")
	if err != nil {
		return nil, err
	}
	for _, file := range files {
		page, err := shared.Clone()
		if err == nil {
			page, err = page.ParseFS(dir, file)
		}
		if err != nil {
			return nil, err
		}
		t.pages[strings.TrimSuffix(path.Base(file), ".html")] = page.Lookup("frame")
	}
	return t, nil
}

// Page returns the template of that page, nil where the theme has none.
func (t *Theme) Page(name string) *template.Template { return t.pages[name] }

// Pages are the names of the pages that the theme has templates for, in order.
func (t *Theme) Pages() []string {
	var names []string
	for name := range t.pages {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
