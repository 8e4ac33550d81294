package main

import (
	"context"
	"encoding/binary"
	"hash/maphash"
	"io/fs"
	"path"
	"strings"
	"time"

	"guidecoat/journal/marker"
)

// The folder is looked at again and again, which works on every system and every
// file system; notices of changes get lost on shared folders and come by the dozen
// from editors.
const (
	// A look may cost this part of the time, so that a large build is looked at less often.
	lookShare   = 20
	lookSoonest = 40 * time.Millisecond
	lookLatest  = 2 * time.Second
	// settle is how long nothing may change before the notes are read: editors
	// write a file in steps. It is longer than the ticks of file times on disks of today.
	settle     = 10 * time.Millisecond
	settleMost = 40 // times, for a folder that is never quiet
)

// A watcher tells when files have changed.
type watcher struct {
	fsys fs.FS
	seed maphash.Seed
	last uint64 // the look of the folder that was acted upon
}

func newWatcher(fsys fs.FS) *watcher {
	w := &watcher{fsys: fsys, seed: maphash.MakeSeed()}
	w.last = w.look()
	return w
}

// wait returns true once files have changed and are quiet, false when the context ends.
func (w *watcher) wait(ctx context.Context) bool {
	var now uint64
	for {
		start := time.Now()
		if now = w.look(); now != w.last {
			break
		}
		pause := min(max(lookShare*time.Since(start), lookSoonest), lookLatest)
		if !sleep(ctx, pause) {
			return false
		}
	}
	for range settleMost {
		if !sleep(ctx, settle) {
			return false
		}
		if w.last = w.look(); w.last == now {
			break
		}
		now = w.last
	}
	return true
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
	w.folder(&h, ".")
	return h.Sum64()
}

// folder takes in a folder. As for the reader of notes, what is hidden and what
// guidecoat published is not there; publishing must not refresh the preview.
func (w *watcher) folder(h *maphash.Hash, dir string) {
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
		}
	}
}
