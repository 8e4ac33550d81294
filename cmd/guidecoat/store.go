package main

import (
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"os"
	"regexp"
	"time"

	"guidecoat/journal/picture"
	placing "guidecoat/render/place"
)

// A store keeps what can be made again. A digest ends each file, so that none that was damaged or foreign is used. No link
// is followed, and whatever fails costs time and nothing else. A nil store keeps nothing.
type store struct {
	cache, folder string
	now           func() time.Time
}

const (
	// keepUnused is how long a file is kept that nobody asks for.
	keepUnused = 180 * 24 * time.Hour
	// keepUnfinished is longer than it takes to write one.
	keepUnfinished = time.Hour
)

// What stores call their files: pictures, runs, and those being written. A store removes no others.
var (
	storedName     = regexp.MustCompile(`^([0-9a-f]{20}-[0-9]{1,4}\.(jpg|png)|[0-9a-f]{32})$`)
	unfinishedName = regexp.MustCompile(`^\.new-[A-Z2-7]{26}$`)
)

// store is nil where the system has no such folder.
func (w *world) store(folder string) *store {
	if w.cache == "" {
		return nil
	}
	return &store{w.cache, folder, w.now}
}

// open opens the folder, or makes it if asked to; nil where there is none of its own.
func (s *store) open(create bool) *os.Root {
	if s == nil {
		return nil
	}
	if create {
		_ = os.MkdirAll(s.cache, 0o700)
	}
	root, err := os.OpenRoot(s.cache)
	for _, name := range []string{"guidecoat", s.folder} {
		if err != nil {
			return nil
		}
		above := root
		if create {
			_ = above.Mkdir(name, 0o700)
		}
		root, err = openFolderIn(above, name)
		above.Close()
	}
	if err != nil {
		return nil
	}
	return root
}

// openFolderIn opens a folder, and nothing that a link leads to.
func openFolderIn(root *os.Root, name string) (*os.Root, error) {
	was, err := root.Lstat(name)
	if err != nil {
		return nil, err
	}
	folder, err := root.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	if now, err := folder.Stat("."); err != nil || !os.SameFile(was, now) {
		folder.Close()
		return nil, errors.Join(err, fs.ErrInvalid)
	}
	return folder, nil
}

// Get returns what was put under that name.
func (s *store) Get(name string) ([]byte, bool) {
	root := s.open(false)
	if root == nil {
		return nil, false
	}
	defer root.Close()
	f, err := placing.OpenFile(root, name)
	if err != nil {
		return nil, false
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, picture.MaxBytes))
	if err != nil || len(data) < sha256.Size {
		return nil, false
	}
	data, digest := data[:len(data)-sha256.Size], data[len(data)-sha256.Size:]
	if string(digest) != sealOf(name, data) {
		return nil, false
	}
	if info, err := f.Stat(); err == nil && s.now().Sub(info.ModTime()) > 24*time.Hour {
		_ = root.Chtimes(name, time.Time{}, s.now()) // asked for today
	}
	return data, true
}

func sealOf(name string, data []byte) string {
	h := sha256.New()
	io.WriteString(h, name+"\x00")
	h.Write(data)
	return string(h.Sum(nil))
}

// Put moves a finished file into its place, so that no half of one is found. Nobody else may read it.
func (s *store) Put(name string, data []byte) {
	root := s.open(true)
	if root == nil {
		return
	}
	defer root.Close()
	unfinished := ".new-" + rand.Text()
	f, err := root.OpenFile(unfinished, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return
	}
	_, err = f.Write(data)
	_, sealed := io.WriteString(f, sealOf(name, data))
	if errors.Join(err, sealed, f.Close(), root.Chtimes(unfinished, time.Time{}, s.now())) != nil || root.Rename(unfinished, name) != nil {
		_ = root.Remove(unfinished)
	}
}

// tidy removes what nobody has asked for in a long time, and what was left unfinished.
func (s *store) tidy() {
	root := s.open(false)
	if root == nil {
		return
	}
	defer root.Close()
	entries, _ := fs.ReadDir(root.FS(), ".")
	for _, e := range entries {
		most := keepUnused
		if unfinishedName.MatchString(e.Name()) {
			most = keepUnfinished
		} else if !storedName.MatchString(e.Name()) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && s.now().Sub(info.ModTime()) > most {
			_ = root.Remove(e.Name())
		}
	}
}
