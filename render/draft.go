package render

import (
	"fmt"
	"sync"

	"guidecoat/journal"
	"guidecoat/render/place"
)

// A Draft is a site whose files are made one by one, as somebody asks for them. A
// preview of a thousand notes shows one page at a time, and must not wait for the
// others. Its files are byte for byte those of Site. Several may use it at once.
type Draft struct {
	s      *site
	tasks  map[string]task
	files  map[string]string // which of the build's files is behind a path of the site
	common func() ([]place.File, error)
}

// NewDraft settles what the pages share. Its errors are those that concern all of them.
func NewDraft(v *journal.View, o Options) (*Draft, error) {
	s, err := prepare(v, o)
	if err != nil {
		return nil, err
	}
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
	return d, nil
}

// Page returns where the page made of a note is, "" where there is none.
func (d *Draft) Page(note string) string { return d.s.paths.byNote[note] }

// Make makes the file at a path of the site, and those that come with it, such as
// the other sizes of a picture. Without a file there it is not among them.
func (d *Draft) Make(path string) ([]place.File, error) {
	if t, ok := d.tasks[path]; ok {
		return d.s.make(t)
	}
	p, ok := d.files[path]
	if !ok {
		return d.common()
	}
	files, err := d.s.fileJob(p, d.s.files[p])
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p, err)
	}
	return files, nil
}
