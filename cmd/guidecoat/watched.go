package main

import (
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"guidecoat/journal/parallel"
	"guidecoat/journal/picture"
)

// A watched folder notes all that a run sees of it, for the next run to compare. A nil one notes nothing.
type watched struct {
	fs.FS
	root *os.Root // the same folder, for files that no link may lead out of it to
	site string   // the path of the site in it, which is not noted: a run looks there for nothing

	mu   sync.Mutex
	seen observed
	torn bool // something was seen in two ways, or not noted at all
}

type observed map[string]string

const (
	listed   = "listed "
	followed = "followed " // through links
	looked   = "looked "   // at a link itself
	linked   = "linked "
	inside   = "inside " // the folder, where links lead to
	contents = "contents "
)

func (w *watched) over(fsys fs.FS) fs.FS {
	if w == nil {
		return fsys
	}
	w.FS = fsys
	return w
}

func (w *watched) note(how, name, saw string) {
	if w.site != "" && (name == w.site || strings.HasPrefix(name, w.site+"/")) {
		return
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	was, known := w.seen[how+name]
	w.torn = w.torn || known && was != saw
	w.seen[how+name] = saw
}

func (w *watched) noteInfo(how, name string, info fs.FileInfo, err error) {
	switch {
	case err != nil:
		w.note(how, name, err.Error())
	case info.IsDir():
		w.note(how, name, "folder")
	default:
		w.note(how, name, fmt.Sprint(info.Mode().Type(), info.Size()))
	}
}

func sumOf(h hash.Hash, size int64) string { return fmt.Sprintf("%d %x", size, h.Sum(nil)[:16]) }

func (w *watched) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(w.FS, name)
	if err != nil {
		w.note(listed, name, err.Error())
		return entries, err
	}
	h := sha256.New()
	for _, e := range entries {
		if path.Join(name, e.Name()) != w.site {
			fmt.Fprintf(h, "%q %s\n", e.Name(), e.Type())
		}
	}
	w.note(listed, name, sumOf(h, 0))
	return entries, nil
}

func (w *watched) Stat(name string) (fs.FileInfo, error) {
	info, err := fs.Stat(w.FS, name)
	w.noteInfo(followed, name, info, err)
	return info, err
}

func (w *watched) Lstat(name string) (fs.FileInfo, error) {
	info, err := fs.Lstat(w.FS, name)
	w.noteInfo(looked, name, info, err)
	return info, err
}

func (w *watched) ReadLink(name string) (string, error) {
	to, err := fs.ReadLink(w.FS, name)
	saw := "to " + to
	if err != nil {
		saw = err.Error()
	}
	w.note(linked, name, saw)
	return to, err
}

func (w *watched) Open(name string) (fs.File, error) {
	f, err := w.FS.Open(name)
	if err != nil {
		w.note(contents, name, err.Error())
		return nil, err
	}
	info, err := f.Stat() // it may be read in part, and grow behind that
	w.noteInfo(followed, name, info, err)
	return &watchedFile{File: f, folder: w, name: name, hash: sha256.New()}, nil
}

// read reads a file that a page shows, unless a link leads out of the root or it is too large.
func (w *watched) read(root *os.Root, name string) ([]byte, error) {
	info, err := root.Stat(filepath.FromSlash(name))
	if w != nil {
		w.noteInfo(inside, name, info, err)
	}
	if err == nil && picture.Fits(info.Size()) != nil {
		return nil, picture.Fits(info.Size())
	}
	data, err := root.ReadFile(filepath.FromSlash(name))
	if w != nil && err == nil {
		h := sha256.New()
		h.Write(data)
		w.note(contents, name, sumOf(h, int64(len(data))))
	}
	return data, err
}

type watchedFile struct {
	fs.File
	folder *watched
	name   string
	hash   hash.Hash
	size   int64
	parts  bool // it is read in parts, and then counts whole
}

func (f *watchedFile) Read(b []byte) (int, error) {
	n, err := f.File.Read(b)
	f.hash.Write(b[:n])
	f.size += int64(n)
	return n, err
}

func (f *watchedFile) ReadAt(b []byte, at int64) (int, error) {
	in, ok := f.File.(io.ReaderAt)
	if !ok {
		return 0, &fs.PathError{Op: "read", Path: f.name, Err: fs.ErrInvalid}
	}
	f.parts = true
	return in.ReadAt(b, at)
}

func (f *watchedFile) Close() error {
	if f.parts {
		_, err := io.CopyN(io.Discard, f, picture.MaxBytes+1)
		f.folder.mu.Lock()
		f.folder.torn = f.folder.torn || err != io.EOF // too large to be read again and again
		f.folder.mu.Unlock()
	}
	f.folder.note(contents, f.name, sumOf(f.hash, f.size))
	return f.File.Close()
}

func (w *watched) asSeen(was observed) bool {
	keys := slices.Collect(maps.Keys(was))
	var differs atomic.Bool
	parallel.Each(len(keys), func(i int) {
		if !differs.Load() && w.again(keys[i], was[keys[i]]) != was[keys[i]] {
			differs.Store(true)
		}
	})
	return !differs.Load()
}

func (w *watched) again(key, was string) string {
	how, name, _ := strings.Cut(key, " ")
	switch how + " " {
	case listed:
		_, _ = w.ReadDir(name)
	case followed:
		_, _ = w.Stat(name)
	case looked:
		_, _ = w.Lstat(name)
	case linked:
		_, _ = w.ReadLink(name)
	case inside:
		info, err := w.root.Stat(filepath.FromSlash(name))
		w.noteInfo(inside, name, info, err)
	case contents:
		if info, err := fs.Stat(w.FS, name); err == nil && !info.Mode().IsRegular() {
			return "no file" // a pipe would keep us waiting
		}
		if f, err := w.Open(name); err == nil {
			var size int64
			_, _ = fmt.Sscan(was, &size)
			_, _ = io.CopyN(io.Discard, f, size)
			f.Close()
		}
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.seen[key]
}
