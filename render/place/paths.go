package place

import (
	"fmt"
	"path"
	"strings"

	"guidecoat/journal/marker"
	"guidecoat/journal/pick"

	"golang.org/x/text/unicode/norm"
)

// paths is what a site holds so far: its files and all folders above them, each
// under its spelling with case folded away.
type paths map[string]node

type node struct {
	path   string // as first spelled
	folder bool
}

// add takes up the path of a file, or says why the site cannot hold it. A site is
// copied between systems and hosts: what one of them would take for the same file,
// for a folder, or for a place outside the site, is refused on all.
func (p paths) add(name string) error {
	if err := marker.Refuse(name); err != nil {
		return err
	}
	for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
		folded := fold(dir)
		if known, ok := p[folded]; !ok {
			p[folded] = node{dir, true}
		} else if known != (node{dir, true}) {
			return clash(name, known)
		} else {
			break // and so are those above it
		}
	}
	folded := fold(name)
	if known, ok := p[folded]; ok {
		return clash(name, known)
	}
	p[folded] = node{name, false}
	return nil
}

func clash(name string, known node) error {
	what := pick.Either(known.folder, "folder", "file")
	if known.path == name {
		return fmt.Errorf("the path %q is in the site twice, the first time as a %s; rename one of the two", name, what)
	}
	return fmt.Errorf("the path %q cannot be in the site beside the %s %q: not every system tells them apart; rename one of the two", name, what, known.path)
}

// fold returns the path such that two are equal which differ only in case, or in
// whether accents are written as letters of their own.
func fold(name string) string { return norm.NFC.String(strings.ToLower(strings.ToUpper(name))) }
