package main

import (
	"cmp"
	"context"
	"encoding/binary"
	"hash/maphash"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"guidecoat/journal/marker"
)

// The folder is looked at again and again, which works everywhere; notices of changes get lost on shared folders.
//
// A large folder cannot be looked through often. But who saves a note saves it again,
// so between two looks at everything the notes and folders that changed last are
// looked at.
const (
	// Looks at everything may cost this part of the time, and those between half as much:
	// together, with what tidies up after them, less than 2 % of a core.
	lookShare   = 100
	lookSoonest = 20 * time.Millisecond
	hotMost     = 16 // how many notes and folders are looked at between
	// settle is how long nothing may change before the notes are read: editors
	// write a file in steps. It is longer than the ticks of file times on disks of today.
	settle     = 10 * time.Millisecond
	settleMost = 40 // times, for a folder that is never quiet
)

type watcher struct {
	fsys  fs.FS
	seed  maphash.Seed
	last  uint64    // the look of the folder that was acted upon
	next  time.Time // when everything is looked at again
	spare bool      // a changed folder may have everything looked at before that
	hot   []stamp   // the newest first
	pause time.Duration
}

type stamp struct {
	path     string
	folder   bool
	at, size int64
}

func newWatcher(fsys fs.FS) *watcher {
	w := &watcher{fsys: fsys, seed: maphash.MakeSeed()}
	w.changed(true)
	return w
}

// wait returns true once files have changed and are quiet, false when the context ends.
func (w *watcher) wait(ctx context.Context) bool {
	for !w.changed(!time.Now().Before(w.next)) {
		if !sleep(ctx, w.pause) {
			return false
		}
	}
	for range settleMost {
		if !sleep(ctx, settle) {
			return false
		}
		if !w.changed(false) {
			break
		}
	}
	w.changed(true) // what is there by now will be read
	return true
}

// changed looks at everything, or at what changed last, and tells whether it is another than the last time.
func (w *watcher) changed(everything bool) bool {
	start := time.Now()
	notes, folders := false, false
	for i, was := range w.hot {
		now := stamp{path: was.path, folder: was.folder}
		if info, err := fs.Stat(w.fsys, was.path); err == nil {
			now = stampOf(was.path, info)
		}
		if now != was && was.folder {
			folders = true // or something in it that does not count
		} else if now != was {
			notes, w.hot[i] = true, now
		}
	}
	w.pause = max(2*lookShare*time.Since(start), lookSoonest)
	if !everything && (notes || !folders || !w.spare) {
		w.spare = w.spare && !notes // its folder has changed with it; wait looks at everything
		return notes
	}
	last := w.last
	start, w.spare = time.Now(), everything
	w.last = w.look()
	w.next = time.Now().Add(lookShare * time.Since(start))
	return notes || w.last != last
}

func stampOf(path string, info fs.FileInfo) stamp {
	s := stamp{path, info.IsDir(), info.ModTime().UnixNano(), 0}
	if !s.folder {
		s.size = info.Size()
	}
	return s
}

func (w *watcher) warm(s stamp) {
	w.hot = append(w.hot, s)
	if len(w.hot) == 4*hotMost {
		w.cool()
	}
}

func (w *watcher) cool() {
	slices.SortStableFunc(w.hot, func(a, b stamp) int { return -cmp.Compare(a.at, b.at) })
	w.hot = w.hot[:min(len(w.hot), hotMost)]
}

func sleep(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// look sums up names, sizes and times of every file that may be part of the build.
func (w *watcher) look() uint64 {
	var h maphash.Hash
	h.SetSeed(w.seed)
	w.hot = nil
	w.folder(&h, ".")
	w.cool()
	return h.Sum64()
}

// folder takes in a folder. Publishing must not refresh the preview, so what was published is not there.
func (w *watcher) folder(h *maphash.Hash, dir string) {
	if info, err := fs.Stat(w.fsys, dir); err == nil { // before it is read, so that no change falls between
		w.warm(stampOf(dir, info))
	}
	entries, err := fs.ReadDir(w.fsys, dir)
	if err != nil {
		h.WriteString(err.Error())
	}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		p := path.Join(dir, name)
		if e.IsDir() {
			if _, published := marker.Read(w.fsys, p); published {
				marker.Notes(w.fsys, p, func(p string, _ error) { h.WriteString(p + "\x00") }) // which is a mistake
			} else {
				h.WriteString(p + "/\x00")
				w.folder(h, p)
			}
			continue
		}
		info, err := e.Info()
		if e.Type()&fs.ModeSymlink != 0 { // what counts is the file it leads to
			info, err = fs.Stat(w.fsys, p)
		}
		h.WriteString(p + "\x00")
		if err == nil {
			var b [16]byte
			binary.LittleEndian.PutUint64(b[:8], uint64(info.Size()))
			binary.LittleEndian.PutUint64(b[8:], uint64(info.ModTime().UnixNano()))
			h.Write(b[:])
			if path.Ext(name) == ".md" && info.Mode().IsRegular() {
				w.warm(stampOf(p, info))
			}
		}
	}
}
