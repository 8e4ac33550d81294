package themes

import (
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/themes/press"
)

// A Layer is a folder of a theme: style.css, extra.css, and in templates one file
// for each page, named after it. Files whose name begins with an underscore hold
// what the pages share; each page is the shared template "frame" with its own
// "main" in it. Any of them may be missing where another layer lies below.
type Layer struct {
	Name string // what mistakes in it are told by
	FS   fs.FS
}

const (
	styleFile = "style.css"
	extraFile = "extra.css" // added to the style instead of replacing it
	folder    = "templates"
)

// A sheet is a template file with the layer that it is taken from.
type sheet struct {
	layer Layer
	file  string // in templates
}

// Read reads a theme out of layers, of which each hides the files of the same name
// in those after it. Mistakes are Faults, all of them joined.
func Read(name string, layers ...Layer) (*Theme, error) {
	t := &Theme{Name: name, pages: map[string]*press.Page{}}
	var err error
	if t.Style, err = readStyle(layers); err != nil {
		return nil, err
	}
	shared, pages, err := sheets(layers)
	if err != nil {
		return nil, err
	}
	common := template.New("")
	var errs []error
	for _, s := range shared {
		errs = append(errs, s.parseInto(common))
	}
	if common.Lookup("frame") == nil && errors.Join(errs...) == nil {
		errs = append(errs, &Fault{Place: name + "/" + folder, What: `no template here defines "frame", which every page begins with`})
	}
	for _, s := range pages {
		page, err := common.Clone()
		if err == nil {
			err = s.parseInto(page)
		}
		if err == nil && page.Lookup("main") == nil {
			err = &Fault{Place: s.place() + ":1", What: `it does not define "main", which is the page's own part`}
		}
		if err == nil {
			t.pages[strings.TrimSuffix(s.file, ".html")] = press.New(page.Lookup("frame"))
		}
		errs = append(errs, err)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return t, nil
}

func (s sheet) place() string { return s.layer.Name + "/" + folder + "/" + s.file }

// parseInto names the template after the file, so that whatever goes wrong later
// tells its place too.
func (s sheet) parseInto(t *template.Template) error {
	data, err := readFile(s.layer.FS, folder+"/"+s.file)
	if err != nil {
		return err
	}
	if _, err := t.New(s.place()).Parse(string(data)); err != nil {
		return faultOf(err)
	}
	return nil
}

// readFile opens nothing that is not a file: a pipe would be waited for for ever.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	if info, err := fs.Stat(fsys, name); err == nil && !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "read", Path: name, Err: errors.New("it is not a file")}
	}
	return fs.ReadFile(fsys, name)
}

// readStyle takes the uppermost style and adds to it what layers above only add.
func readStyle(layers []Layer) ([]byte, error) {
	var extra []byte
	for _, l := range layers {
		if more, err := readFile(l.FS, extraFile); err == nil {
			extra = slices.Concat(more, extra)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		style, err := readFile(l.FS, styleFile)
		if err == nil {
			return append(style, extra...), nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
	}
	return nil, &fs.PathError{Op: "open", Path: styleFile, Err: fs.ErrNotExist}
}

// sheets lists the template files that nothing hides, those shared and those of
// pages. The lowest layer comes first: what one above defines anew is what counts.
func sheets(layers []Layer) (shared, pages []sheet, err error) {
	byFile := map[string]bool{}
	for i, l := range layers {
		names, err := fs.Glob(l.FS, folder+"/*.html")
		if err != nil {
			return nil, nil, err
		}
		var mine, own []sheet
		for _, name := range names {
			s := sheet{l, path.Base(name)}
			if byFile[s.file] {
				continue
			}
			byFile[s.file] = true
			if strings.HasPrefix(s.file, "_") {
				mine = append(mine, s)
				continue
			}
			if fault := unknownPage(s, layers[i+1:]); fault != nil {
				return nil, nil, fault
			}
			own = append(own, s)
		}
		shared, pages = slices.Concat(mine, shared), slices.Concat(own, pages)
	}
	return shared, pages, nil
}

// unknownPage finds a template that no page would ever use, as a slip of the pen
// in a file's name leaves it. The lowest layer is what says which pages there are.
func unknownPage(s sheet, below []Layer) error {
	if len(below) == 0 {
		return nil
	}
	base := below[len(below)-1].FS
	if _, err := fs.Stat(base, folder+"/"+s.file); err == nil {
		return nil
	}
	names, _ := fs.Glob(base, folder+"/[^_]*.html") // the pattern is sound
	for i := range names {
		names[i] = path.Base(names[i])
	}
	help := "the pages are " + strings.Join(names, ", ")
	if n := near.Nearest(s.file, names); n != "" {
		help = fmt.Sprintf("the nearest is %s", n)
	}
	return &Fault{Place: s.place() + ":1", What: "there is no page of that name; " + help}
}
