package render

import (
	"strings"
	"sync"

	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// A Draft is a site whose files are made as somebody asks for them, byte for byte as Site does. Several may use it.
type Draft struct {
	s      *site
	tasks  map[string]task
	files  map[string]string // which of the build's files is behind a path of the site
	common func() ([]place.File, error)
	below  map[string]*Draft // of a garage, by folder; it has nothing else but common
}

// NewDraft settles what the pages share. Its errors are those that concern all of them.
func NewDraft(v *view.View, o Options) (*Draft, error) {
	s, err := prepare(v, o)
	if err != nil {
		return nil, err
	}
	return draftOf(s), nil
}

func NewGarageDraft(g Garage, o Options) (*Draft, error) {
	s, err := prepareGarage(g, o)
	if err != nil {
		return nil, err
	}
	d := &Draft{below: map[string]*Draft{}, common: sync.OnceValues(func() ([]place.File, error) { return collect(stream(s.jobs())) })}
	for _, b := range s.builds {
		d.below[b.folder] = draftOf(b.site)
	}
	return d, nil
}

func draftOf(s *site) *Draft {
	d := &Draft{s: s, tasks: map[string]task{}, files: map[string]string{}}
	for _, t := range s.todo {
		d.tasks[t.path] = t
	}
	for p, f := range s.files {
		d.files[f.at] = p
		if f.picture != nil {
			for _, z := range f.picture.Sizes {
				d.files[picturePath(z)] = p
			}
		}
	}
	d.common = sync.OnceValues(func() ([]place.File, error) { return collect(stream(s.commonJobs())) })
	return d
}

// Make makes the file at a path, and those that come with it, such as other sizes of a picture.
func (d *Draft) Make(path string) ([]place.File, error) {
	folder, rest, _ := strings.Cut(path, "/")
	if b := d.below[folder]; b != nil {
		return within(folder, func() ([]place.File, error) { return b.Make(rest) })()
	}
	if t, ok := d.tasks[path]; ok {
		return d.s.make(t)
	}
	p, ok := d.files[path]
	if !ok {
		return d.common()
	}
	return d.s.fileJob(p, d.s.files[p])
}
