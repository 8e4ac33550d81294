package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"guidecoat/render/photo"
)

// Sightings are what was seen of the files of a folder: a thousand photos are not read
// again because a word of a note has changed. A file whose size and time are the
// same is taken for the same, as everything that watches files does.
type sightings struct {
	dir string

	mu   sync.Mutex
	seen map[string]seen
}

type seen struct {
	size int64
	time time.Time
	plan *photo.Plan
	err  error
}

// look does as photo.Look for a file of the folder.
func (m *sightings) look(name string) (*photo.Plan, error) {
	root, err := os.OpenRoot(m.dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	info, err := root.Stat(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	m.mu.Lock()
	s, ok := m.seen[name]
	m.mu.Unlock()
	if ok && s.size == info.Size() && s.time.Equal(info.ModTime()) {
		return s.plan, s.err
	}
	s = seen{size: info.Size(), time: info.ModTime()}
	s.plan, s.err = lookAt(root, name)
	if _, broken := s.err.(*fs.PathError); broken {
		return nil, s.err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.seen == nil {
		m.seen = map[string]seen{}
	}
	m.seen[name] = s
	return s.plan, s.err
}

func lookAt(root *os.Root, name string) (*photo.Plan, error) {
	data, err := (*watched)(nil).read(root, name)
	if err != nil {
		return nil, err
	}
	return photo.Look(name, data)
}
