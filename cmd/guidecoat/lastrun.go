package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"guidecoat/journal/marker"
	placing "guidecoat/render/place"
)

// A lastRun knows what the last run into a folder was asked, saw, made and said. Where all is the same, publishing is left out.
type lastRun struct {
	w      *world
	o      publishing
	dir    string
	name   string // of the record
	notes  watched
	theme  watched
	record record
	heard  overheard
}

type record struct {
	Asked        string
	Notes, Theme observed
	Site         marker.Digest // stands for the site that it made
	Said         []byte
}

func (w *world) lastRun(dir string, o publishing) *lastRun {
	r := &lastRun{w: w, o: o, dir: dir}
	target := fullPath(o.target(dir))
	if below, err := filepath.Rel(fullPath(dir), target); err == nil && filepath.IsLocal(below) {
		r.notes.site = filepath.ToSlash(below)
	}
	name := sha256.Sum256([]byte(target))
	r.name = hex.EncodeToString(name[:16])
	s := newScreen(w.stderr, w.getenv)
	r.record.Asked = fmt.Sprintf("%#v", []any{maker(), dir, fullPath(dir), o, target, fullPath(o.theme), w.today(), s.width, s.edge, s.colour})
	r.notes.seen, r.theme.seen = observed{}, observed{}
	return r
}

// fullPath is a path from the top, without links as far as there is something.
func fullPath(path string) string {
	full, err := filepath.Abs(path)
	if err != nil {
		return path
	}
	if real, err := filepath.EvalSymlinks(full); err == nil {
		return real
	}
	if above, err := filepath.EvalSymlinks(filepath.Dir(full)); err == nil {
		return filepath.Join(above, filepath.Base(full))
	}
	return full
}

// maker stands for this very program, so that what another one made is made again.
func maker() string {
	path, _ := os.Executable()
	info, err := os.Stat(path) // of "" there is none
	if err != nil {
		return version()
	}
	return fmt.Sprint(version(), info.Size(), info.ModTime().UnixNano())
}

func (r *lastRun) store() *store { return r.w.store("sites") }

// stands tells whether the site is as this run would leave it.
func (r *lastRun) stands() bool {
	data, ok := r.store().Get(r.name)
	var was record
	if !ok || json.Unmarshal(data, &was) != nil || was.Asked != r.record.Asked || !r.sameTheme(was.Theme) || !r.sameNotes(was.Notes) || !r.sameSite(was.Site) {
		r.store().Put(r.name, nil) // a run that is stopped leaves nothing for the next one to trust
		return false
	}
	r.record = was
	return true
}

func (r *lastRun) sameNotes(was observed) bool {
	root, err := os.OpenRoot(r.dir)
	if err != nil {
		return false
	}
	defer root.Close()
	now := watched{FS: os.DirFS(r.dir), root: root, site: r.notes.site, seen: observed{}}
	return now.asSeen(was)
}

func (r *lastRun) sameTheme(was observed) bool {
	root, err := openTheme(r.dir, r.o.theme)
	if err != nil {
		return len(was) == 0 && os.IsNotExist(err)
	}
	defer root.Close()
	now := watched{FS: root.FS(), seen: observed{}}
	return len(was) > 0 && now.asSeen(was)
}

func (r *lastRun) sameSite(mark marker.Digest) bool {
	root := r.openSite()
	if root == nil {
		return false
	}
	defer root.Close()
	return placing.Stands(root, mark)
}

// openSite opens the folder of the site, and nothing that a link leads to.
func (r *lastRun) openSite() *os.Root {
	target := r.o.target(r.dir)
	if info, err := os.Lstat(target); err != nil || !info.IsDir() {
		return nil
	}
	root, _ := os.OpenRoot(target) // nil where it cannot be opened
	return root
}

func (r *lastRun) tell() error {
	if _, err := r.w.stderr.Write(r.record.Said); err != nil {
		return cannotPrint(err)
	}
	r.w.tellPublished(r.o.target(r.dir), placing.Report{Unchanged: true})
	return nil
}

func (r *lastRun) repeat() error {
	defer r.store().tidy()
	w := *r.w
	r.heard.Writer, w.stderr = w.stderr, &r.heard
	p, err := w.loadPlace(&place{dir: r.dir, seen: &r.notes}, r.o.day)
	if err != nil {
		return err
	}
	p.least = leastFor(r.o.audience)
	if err := w.refuseErrors(p, "published"); err != nil {
		return err
	}
	return w.publish(p, r.o, nil, r)
}

func (r *lastRun) watchedTheme() *watched {
	if r == nil {
		return nil
	}
	return &r.theme
}

// told takes note of all that a run says before it is known what has changed in the site.
func (r *lastRun) told() {
	if r != nil {
		r.record.Said = bytes.Clone(r.heard.heard.Bytes())
	}
}

func (r *lastRun) keep() {
	if r == nil || r.notes.torn || r.theme.torn {
		return
	}
	root := r.openSite()
	if root == nil {
		return
	}
	defer root.Close()
	mark, err := placing.Mark(root)
	if err != nil {
		return
	}
	r.record.Notes, r.record.Theme, r.record.Site = r.notes.seen, r.theme.seen, mark
	if data, err := json.Marshal(r.record); err == nil {
		r.store().Put(r.name, data)
	}
}

type overheard struct {
	io.Writer
	heard bytes.Buffer
}

func (o *overheard) Write(b []byte) (int, error) {
	o.heard.Write(b)
	return o.Writer.Write(b)
}
