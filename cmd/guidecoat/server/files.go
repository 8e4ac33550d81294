package server

import (
	"bytes"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"guidecoat/journal/note"
)

// Files are a folder as the editor shows it: the texts that it has open over what is on
// disk. What was seen on disk is kept, and look looks whether it is still so: asking for a
// thousand notes at each keystroke takes longer than to compile them. It only ever reads.
type files struct {
	disk fs.FS

	mu   sync.Mutex
	open map[string][]byte // by path, as long as the editor has them open
	seen *seen
}

// Seen is what was seen on disk since the last look, by path.
type seen struct {
	stats, lstats map[string]answer[fs.FileInfo]
	links         map[string]answer[string]
	folders       map[string]answer[[]fs.DirEntry]
	texts         map[string]answer[[]byte]
}

type answer[T any] struct {
	value T
	err   error
}

func answerOf[T any](value T, err error) answer[T] { return answer[T]{value, err} }

func (a answer[T]) like(b answer[T]) bool { return (a.err == nil) == (b.err == nil) }

func newFiles(disk fs.FS) *files {
	return &files{disk: disk, open: map[string][]byte{}, seen: newSeen()}
}

func newSeen() *seen {
	return &seen{map[string]answer[fs.FileInfo]{}, map[string]answer[fs.FileInfo]{}, map[string]answer[string]{},
		map[string]answer[[]fs.DirEntry]{}, map[string]answer[[]byte]{}}
}

// look looks at all again that was seen, and tells whether anything is otherwise. A file
// whose size and time are the same is taken for the same, as everything that watches files
// does.
func (f *files) look() (changed bool) {
	f.mu.Lock()
	old := seen{maps.Clone(f.seen.stats), maps.Clone(f.seen.lstats), maps.Clone(f.seen.links), maps.Clone(f.seen.folders), maps.Clone(f.seen.texts)}
	f.mu.Unlock()
	now := newSeen()
	for name, was := range old.folders {
		is := answerOf(fs.ReadDir(f.disk, name))
		now.folders[name] = is
		changed = changed || !is.like(was) || !slices.EqualFunc(is.value, was.value, func(a, b fs.DirEntry) bool { return a.Name() == b.Name() && a.Type() == b.Type() })
	}
	for name, was := range old.links {
		is := answerOf(fs.ReadLink(f.disk, name))
		now.links[name] = is
		changed = changed || !is.like(was) || is.value != was.value
	}
	moved := map[string]bool{} // files of which one look or the other is otherwise
	again := func(was, is map[string]answer[fs.FileInfo], stat func(fs.FS, string) (fs.FileInfo, error)) {
		for name, a := range was {
			b := answerOf(stat(f.disk, name))
			is[name] = b
			moved[name] = moved[name] || !b.like(a) ||
				b.err == nil && (a.value.Size() != b.value.Size() || !a.value.ModTime().Equal(b.value.ModTime()) || a.value.Mode() != b.value.Mode())
			changed = changed || moved[name]
		}
	}
	again(old.stats, now.stats, fs.Stat)
	again(old.lstats, now.lstats, fs.Lstat)
	for name, text := range old.texts {
		if sure, known := moved[name]; known && !sure && text.err == nil {
			now.texts[name] = text
		}
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	f.seen = now
	return changed
}

// ask returns what is known, or asks the disk. It asks without the lock, and two may ask
// at once.
func ask[T any](f *files, known func(*seen) map[string]answer[T], name string, disk func() (T, error)) (T, error) {
	f.mu.Lock()
	s := f.seen
	a, ok := known(s)[name]
	f.mu.Unlock()
	if !ok {
		a.value, a.err = disk()
		f.mu.Lock()
		known(s)[name] = a
		f.mu.Unlock()
	}
	return a.value, a.err
}

// text is what the editor has open at a path.
func (f *files) text(name string) ([]byte, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	text, ok := f.open[name]
	return text, ok
}

// put lays a text over the file; drop takes it off.
func (f *files) put(name, text string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.open[name] = []byte(text)
}

func (f *files) drop(name string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	delete(f.open, name)
}

func (f *files) Stat(name string) (fs.FileInfo, error) {
	if text, ok := f.text(name); ok {
		return info{path.Base(name), len(text)}, nil
	}
	return ask(f, func(s *seen) map[string]answer[fs.FileInfo] { return s.stats }, name, func() (fs.FileInfo, error) { return fs.Stat(f.disk, name) })
}

func (f *files) Lstat(name string) (fs.FileInfo, error) {
	if text, ok := f.text(name); ok {
		return info{path.Base(name), len(text)}, nil
	}
	return ask(f, func(s *seen) map[string]answer[fs.FileInfo] { return s.lstats }, name, func() (fs.FileInfo, error) { return fs.Lstat(f.disk, name) })
}

func (f *files) ReadLink(name string) (string, error) {
	if _, ok := f.text(name); ok {
		return "", &fs.PathError{Op: "readlink", Path: name, Err: fs.ErrInvalid}
	}
	return ask(f, func(s *seen) map[string]answer[string] { return s.links }, name, func() (string, error) { return fs.ReadLink(f.disk, name) })
}

// ReadDir lists a folder, and in it what is open and not yet on disk.
func (f *files) ReadDir(dir string) ([]fs.DirEntry, error) {
	list, err := ask(f, func(s *seen) map[string]answer[[]fs.DirEntry] { return s.folders }, dir, func() ([]fs.DirEntry, error) { return fs.ReadDir(f.disk, dir) })
	if err != nil {
		return nil, err
	}
	list = slices.Clone(list)
	f.mu.Lock()
	defer f.mu.Unlock()
	for name, text := range f.open {
		if path.Dir(name) != dir {
			continue
		}
		entry := fs.FileInfoToDirEntry(info{path.Base(name), len(text)})
		if at := slices.IndexFunc(list, func(e fs.DirEntry) bool { return e.Name() == entry.Name() }); at >= 0 {
			list[at] = entry
		} else {
			list = append(list, entry)
		}
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return list, nil
}

// Open opens a file.
func (f *files) Open(name string) (fs.File, error) {
	if _, ok := f.text(name); !ok && !strings.HasSuffix(name, ".md") {
		return f.disk.Open(name)
	}
	text, err := f.Kept(name)
	if err != nil {
		return nil, err
	}
	return &memory{info{path.Base(name), len(text)}, bytes.NewReader(text)}, nil
}

// Kept are the bytes of what may be a note: the same until it is another. It is read whole,
// but no further than shows that it is too large.
func (f *files) Kept(name string) ([]byte, error) {
	if text, ok := f.text(name); ok {
		return text, nil
	}
	return ask(f, func(s *seen) map[string]answer[[]byte] { return s.texts }, name, func() ([]byte, error) {
		file, err := f.disk.Open(name)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		return io.ReadAll(io.LimitReader(file, note.MaxSize+64))
	})
}

// Memory is a file that is a text.
type memory struct {
	info
	*bytes.Reader
}

func (m *memory) Stat() (fs.FileInfo, error) { return m.info, nil }
func (m *memory) Close() error               { return nil }
func (m *memory) Size() int64                { return m.info.Size() }

type info struct {
	name string
	size int
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return int64(i.size) }
func (i info) Mode() fs.FileMode  { return 0o444 }
func (i info) ModTime() time.Time { return time.Time{} }
func (i info) IsDir() bool        { return false }
func (i info) Sys() any           { return nil }
