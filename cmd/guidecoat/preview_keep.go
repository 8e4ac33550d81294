package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"guidecoat/render/photo"
)

// A shelf holds pictures that were made, up to a size, before the store that holds
// them all.
type shelf struct {
	store *store

	mu    sync.Mutex
	files map[string][]byte
	size  int
}

const shelfSize = 128 << 20

func (s *shelf) Get(name string) ([]byte, bool) {
	s.mu.Lock()
	data, ok := s.files[name]
	s.mu.Unlock()
	if ok {
		return data, true
	}
	if data, ok = s.store.Get(name); ok {
		s.keep(name, data)
	}
	return data, ok
}

func (s *shelf) Put(name string, data []byte) {
	s.keep(name, data)
	s.store.Put(name, data)
}

// keep clears a full shelf: what is looked at is soon there again.
func (s *shelf) keep(name string, data []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.files == nil || s.size+len(data) > shelfSize {
		s.files, s.size = map[string][]byte{}, 0
	}
	s.size += len(data) - len(s.files[name])
	s.files[name] = data
}

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
