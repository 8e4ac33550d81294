package server

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/aloud"
	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// A folder is one build, or what stands in a garage's garage.md, while an editor has a
// file of it open.
//
// After a keystroke everything is compiled, which takes little where one note has changed,
// and the problems of that note are told. Once the keys rest, the disk is looked at and
// all checks look at everything.
type folder struct {
	root   string
	garage bool
	files  *files

	mu      sync.Mutex
	changes int               // so far
	touched map[string]bool   // the notes that changed since problems were told last
	poked   chan struct{}     // that something has changed
	told    map[string]string // the last message about the problems of a file, by its name

	reading sync.Mutex // held while it is compiled
	reader  journal.Reader
	above   journal.Reader // of the garage that it may be in
	newest  atomic.Pointer[reading]
}

// A reading is the folder as it stood after so many changes. It does not change.
type reading struct {
	changes int
	err     error
	garage  *journal.Garage
	state   *state.State // nil for a garage

	once  sync.Once
	named []mention // see mentions
}

// restful is how long the keys rest before all is looked at.
var restful = 300 * time.Millisecond

func newFolder(root string, garage bool) *folder {
	return &folder{root: root, garage: garage, files: newFiles(os.DirFS(root)), touched: map[string]bool{}, told: map[string]string{}, poked: make(chan struct{}, 1)}
}

// rootOf finds the folder that a file belongs to: the nearest above that holds a job card.
// The garage has only its own file. Exists tells of files that are not on disk yet.
func rootOf(file string, exists func(string) bool) (root string, garage, ok bool) {
	if filepath.Ext(file) != ".md" {
		return "", false, false
	}
	if filepath.Base(file) == journal.GarageName {
		return filepath.Dir(file), true, true
	}
	for dir := filepath.Dir(file); ; dir = filepath.Dir(dir) {
		if exists(filepath.Join(dir, journal.CardName)) {
			return dir, false, true
		}
		if dir == filepath.Dir(dir) {
			return "", false, false
		}
	}
}

// touch says that a file has changed; "" that any may have.
func (f *folder) touch(name string) {
	f.mu.Lock()
	f.changes++
	if name != "" {
		f.touched[name] = true
	}
	f.mu.Unlock()
	select {
	case f.poked <- struct{}{}:
	default:
	}
}

func (f *folder) changed() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.changes
}

// read is the folder as it stands.
func (f *folder) read(today measure.Date) *reading {
	f.reading.Lock()
	defer f.reading.Unlock()
	changes := f.changed()
	if last := f.newest.Load(); last != nil && last.changes == changes {
		return last
	}
	r := f.compile(changes, today)
	f.newest.Store(r)
	return r
}

// compile reads what has changed and resolves everything.
func (f *folder) compile(changes int, today measure.Date) *reading {
	r := &reading{changes: changes}
	if f.garage {
		r.garage, r.err = f.reader.ReadGarage(f.files)
		return r
	}
	b, err := f.reader.ReadBuildIn(f.files, filepath.Base(f.root), func() (*journal.Garage, error) {
		above := os.DirFS(filepath.Dir(f.root))
		if !journal.IsGarage(above) {
			return nil, nil
		}
		return f.above.ReadGarage(above)
	})
	if err != nil {
		r.err = err
		return r
	}
	r.state = state.At(b, 0, today)
	return r
}

// soon is the folder as it stands, or as it last stood where finding out takes longer
// than somebody who types will wait.
func (f *folder) soon(today measure.Date, patience time.Duration) *reading {
	done := make(chan *reading, 1)
	go func() { done <- f.read(today) }()
	select {
	case r := <-done:
		return r
	case <-time.After(patience):
	}
	if last := f.newest.Load(); last != nil {
		return last
	}
	return <-done
}

// problems are what the checks say of some notes, or of all for nil.
func (r *reading) problems(only map[string]bool) []problem.Problem {
	switch {
	case r.err != nil:
		return nil
	case r.garage != nil:
		return check.RunGarage(r.garage, problem.Information)
	}
	return check.RunOn(r.state, problem.Information, only)
}

// noteAt is the note of that path, or nil.
func (r *reading) noteAt(name string) *note.Note {
	var notes []*note.Note
	switch {
	case r.err != nil:
	case r.garage != nil:
		notes = append(notes, r.garage.Note)
	default:
		notes = append(notes, r.state.Build.Card.Note)
		for _, s := range r.state.Build.Sessions {
			notes = append(notes, s.Note)
		}
		for _, p := range r.state.Build.Pages {
			notes = append(notes, p.Note)
		}
	}
	return pick.First(notes, func(n *note.Note) bool { return n.File.Path == name })
}

// aloud are the lines of a note with what they were understood to say.
func (r *reading) aloud(name string) []*aloud.Line {
	if r.err != nil || r.state == nil {
		return nil
	}
	return aloud.OfNote(r.state, view.KeptFrom(), name)
}

// look looks at the disk, and has all read again if something has changed there.
func (f *folder) look() {
	if f.files.look() {
		f.touch("")
	}
}

// A finding is what all checks say of a reading.
type finding struct {
	*reading
	problems []problem.Problem
}

// tend tells the problems whenever something has changed, until the context ends. Each
// telling is of some files, or of all for nil.
func (f *folder) tend(ctx context.Context, today func() measure.Date, tell func(*reading, map[string]bool, []problem.Problem)) {
	rest := time.NewTimer(0)
	defer rest.Stop()
	all, looking := make(chan finding, 1), false
	for {
		select {
		case <-ctx.Done():
			return
		case <-f.poked:
			rest.Reset(restful)
			f.mu.Lock()
			only := maps.Clone(f.touched)
			f.mu.Unlock()
			if len(only) > 0 {
				r := f.read(today())
				tell(r, only, r.problems(only))
			}
		case <-rest.C:
			if looking { // at what stood there before
				rest.Reset(restful)
				continue
			}
			looking = true
			go func() { // the next keystroke does not wait for it
				f.look()
				r := f.read(today())
				all <- finding{r, r.problems(nil)}
			}()
		case found := <-all:
			looking = false
			if found.changes != f.changed() {
				rest.Reset(restful)
				continue
			}
			f.mu.Lock()
			clear(f.touched)
			f.mu.Unlock()
			tell(found.reading, nil, found.problems)
		}
	}
}

// nameOf is the path of a file in the folder, "" for one that is not in it.
func (f *folder) nameOf(file string) string {
	rel, err := filepath.Rel(f.root, file)
	if err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return ""
	}
	return filepath.ToSlash(rel)
}

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
