// Package themes holds the looks of a site, named after finishes. A builder's own folder is laid over one; nothing can run.
package themes

import (
	"bytes"
	"embed"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/near"
)

//go:embed surfacer lacquer record.css
var embedded embed.FS

// Default is the theme of who asks for none.
const Default = "surfacer"

// A Theme is one look.
type Theme struct {
	Name     string
	Style    []byte
	Record   []byte            // the style of the handover record besides, which stands before it
	Words    map[string]string // what labels are called, of those that are called otherwise
	Pictures []Picture         // for the style, which stands beside them
	Own      []string          // the files of the builder's own folder, all of which are used
}

// A Picture is one that a style shows.
type Picture struct {
	Name string
	Data []byte
}

// Names are the themes there are.
func Names() []string {
	entries, _ := embedded.ReadDir(".") // the root is always there
	var names []string
	for _, e := range entries {
		if e.IsDir() {
			names = append(names, e.Name())
		}
	}
	return names
}

// What is in a style for whoever works on it. No string of a style of ours looks like it.
var comments, spaces = regexp.MustCompile(`(?s)/\*.*?\*/`), regexp.MustCompile(`([;{},:])\s+|\s+({)`)

// forPages leaves that out.
func forPages(style []byte) []byte {
	head, rest, _ := bytes.Cut(style, []byte("*/")) // the first says what the theme is
	return slices.Concat(head, []byte("*/"), spaces.ReplaceAll(comments.ReplaceAll(rest, nil), []byte("$1$2")))
}

// Load returns a theme with the builder's own folder over it. What is wrong with that comes as [Faults].
func Load(name string, own *Folder) (*Theme, error) {
	if names := Names(); !slices.Contains(names, name) {
		if n := near.Nearest(name, names); n != "" {
			return nil, fmt.Errorf("there is no theme %q; the nearest is %q", name, n)
		}
		return nil, fmt.Errorf("there is no theme %q; there is %s", name, strings.Join(names, ", "))
	}
	style, _ := embedded.ReadFile(name + "/" + styleFile) // both are always there
	record, _ := embedded.ReadFile("record.css")
	t := &Theme{Name: name, Style: forPages(style), Record: forPages(record), Words: map[string]string{}}
	if own != nil {
		return t, own.layOver(t)
	}
	return t, nil
}
