// Package themes holds the looks a site can have: for each theme a folder with its
// templates and its style, and nothing else. Themes are named after finishes.
//
// A theme need not be whole. What it leaves out is taken from the default, so a
// theme is a style and those templates that arrange a page otherwise; and a
// builder's own folder is laid over a theme in the same way.
package themes

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/themes/press"
)

//go:embed all:surfacer all:lacquer
var embedded embed.FS

// Default is the theme of who asks for none, and what every other one rests on.
const Default = "surfacer"

// A Theme is one look. Its templates are parsed once and may be used at the same
// time by any number of pages.
type Theme struct {
	Name  string
	Style []byte
	// Unused are files of the builder's own layers that nothing reads.
	Unused []*Fault
	pages  map[string]*press.Page
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

// Load returns the theme of that name with the builder's own layers over it.
func Load(name string, own ...Layer) (*Theme, error) {
	names := Names()
	if !slices.Contains(names, name) {
		if n := near.Nearest(name, names); n != "" {
			return nil, fmt.Errorf("there is no theme %q; the nearest is %q", name, n)
		}
		return nil, fmt.Errorf("there is no theme %q; there is %s", name, strings.Join(names, ", "))
	}
	layers := slices.Clone(own)
	for _, n := range slices.Compact([]string{name, Default}) {
		dir, err := fs.Sub(embedded, n)
		if err != nil {
			return nil, err
		}
		layers = append(layers, Layer{n, dir})
	}
	t, err := Read(name, layers...)
	if err != nil {
		return nil, err
	}
	for _, l := range own {
		t.Unused = append(t.Unused, l.unused()...)
	}
	return t, nil
}

// Page returns the template of that page, nil where the theme has none.
func (t *Theme) Page(name string) *press.Page { return t.pages[name] }

// Pages are the names of the pages that the theme has templates for, in order.
func (t *Theme) Pages() []string {
	var names []string
	for name := range t.pages {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
