package journal

import (
	"bytes"
	"io/fs"
	"sync"

	"guidecoat/journal/money"
)

// A Reader reads one build or garage again and again, and parses only notes whose bytes have changed. A nil one keeps nothing.
type Reader struct {
	mu   sync.Mutex
	last map[string]*kept // of the reading before, by path
	kept map[string]*kept // of this one, so that nothing is kept of notes that are gone

	seen   sync.Map           // the sightings of files that are no notes, by path
	builds map[string]*Reader // of a garage, by folder
}

// kept is a file as it was read, before it was resolved in any build.
type kept struct {
	data  []byte
	home  money.Currency
	found *found
}

func (r *Reader) ReadBuild(fsys fs.FS, dir string) (*Build, error) {
	return r.readBuild(fsys, dir, &Build{})
}

func (r *Reader) readBuild(fsys fs.FS, dir string, b *Build) (*Build, error) {
	f, err := scan(fsys, dir)
	if err != nil {
		return nil, err
	}
	if r != nil {
		r.last, r.kept = r.kept, make(map[string]*kept, len(r.kept))
	}
	b.Path, b.Faults, b.reader = dir, f.faults, r
	b.found(fsys, f)
	b.readCard(fsys)
	b.readNotes(fsys, f.notes, r)
	b.compile()
	return b, nil
}

func (r *Reader) build(dir string) *Reader {
	if r == nil {
		return nil
	}
	if r.builds[dir] == nil {
		if r.builds == nil {
			r.builds = map[string]*Reader{}
		}
		r.builds[dir] = &Reader{}
	}
	return r.builds[dir]
}

func (r *Reader) saw(p string) (s sighting, ok bool) {
	if r == nil {
		return s, false
	}
	v, ok := r.seen.Load(p)
	s, _ = v.(sighting)
	return s, ok
}

func (r *Reader) remember(p string, s sighting) {
	if r != nil {
		r.seen.Store(p, s)
	}
}

func (r *Reader) recall(p string, data []byte, home money.Currency) *found {
	if r == nil {
		return understand(p, data, home)
	}
	r.mu.Lock()
	k := r.last[p]
	r.mu.Unlock()
	if k == nil || k.home != home || !bytes.Equal(k.data, data) {
		k = &kept{data, home, understand(p, data, home)}
	}
	r.mu.Lock()
	r.kept[p] = k
	r.mu.Unlock()
	return k.found
}
