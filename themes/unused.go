package themes

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidecoat/journal/near"
)

// unused finds what stands in a builder's layer and is never read, as a slip of the
// pen in a name leaves it. Words beside the theme, such as a readme, and hidden
// files are nobody's business.
func (l Layer) unused() []*Fault {
	var list []*Fault
	add := func(name string, known []string) {
		if strings.HasPrefix(path.Base(name), ".") || slices.Contains([]string{".txt", ".md"}, path.Ext(name)) {
			return
		}
		help := "a theme is made of " + strings.Join(known, ", ")
		if n := near.Nearest(path.Base(name), known); n != "" {
			help = "the nearest name is " + n
		}
		list = append(list, &Fault{Place: l.Name + "/" + name, What: fmt.Sprintf("nothing reads it; %s", help)})
	}
	top, _ := fs.ReadDir(l.FS, ".") // a folder that cannot be read is told of by who reads the theme
	for _, e := range top {
		if known := []string{styleFile, extraFile, folder}; !slices.Contains(known, e.Name()) {
			add(e.Name(), known)
		}
	}
	inside, _ := fs.ReadDir(l.FS, folder)
	for _, e := range inside {
		if path.Ext(e.Name()) != ".html" { // templates that no page uses are faults
			add(folder+"/"+e.Name(), []string{"PAGE.html", "_NAME.html"})
		}
	}
	return list
}
