package server

import (
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/creachadair/jrpc2"
)

// What the editor has open, and what was read of it.

func (s *server) didOpen(p documentParams) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	uri := p.Document.URI
	s.close(uri)
	d := &openFile{lines: linesOf(p.Document.Text, s.utf8), uri: uri, path: pathOf(uri), version: p.Document.Version}
	s.open[uri] = d
	s.place(d)
	if filepath.Base(d.path) == journal.CardName { // notes beside it may have belonged to none
		for _, other := range s.open {
			s.place(other)
		}
	}
	return nil, nil
}

// place finds the folder of an open file, and lays it over what is there.
func (s *server) place(d *openFile) {
	if d.path == "" {
		return
	}
	root, garage, ok := rootOf(d.path, func(p string) bool {
		return isFile(p) || slices.ContainsFunc(s.opened(), func(o *openFile) bool { return o.path == p })
	})
	if !ok || d.folder != nil && d.folder.root == root {
		return
	}
	if d.folder != nil {
		d.folder.files.drop(d.name)
		d.folder.touch("")
	}
	d.folder = s.folder(root, garage)
	d.name = d.folder.nameOf(d.path)
	d.folder.files.put(d.name, d.laid())
	d.folder.look()
	d.folder.touch(d.name)
}

func (s *server) opened() []*openFile {
	return pick.Map(sorted(s.open), func(uri string) *openFile { return s.open[uri] })
}

// folder returns the folder of that root, which is tended from now on.
func (s *server) folder(root string, garage bool) *folder {
	key := root
	if garage {
		key = filepath.Join(root, journal.GarageName)
	}
	f := s.folders[key]
	if f == nil {
		f = newFolder(root, garage)
		s.folders[key] = f
		s.start(func() {
			f.tend(s.ctx, s.today, func(r *reading, only map[string]bool, found []problem.Problem) { s.tell(f, r, only, found) })
		})
	}
	return f
}

func (s *server) didChange(p changeParams) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	d := s.open[p.Document.URI]
	if d == nil {
		return nil, jrpc2.Errorf(jrpc2.InvalidParams, "%s is not open", p.Document.URI)
	}
	for _, c := range p.Changes {
		if text := d.edit(c); len(text) <= maxMessage {
			d.lines = linesOf(text, s.utf8)
		}
	}
	d.version = p.Document.Version
	if d.folder != nil {
		d.folder.files.put(d.name, d.laid())
		d.folder.touch(d.name)
	}
	return nil, nil
}

func (s *server) didClose(p documentParams) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.close(p.Document.URI)
	return nil, nil
}

// close takes a file out of those that are open. What is on disk counts from now on.
func (s *server) close(uri string) {
	d := s.open[uri]
	if d == nil {
		return
	}
	delete(s.open, uri)
	if d.folder != nil {
		d.folder.files.drop(d.name)
		d.folder.look()
		d.folder.touch("")
	}
}

// lookAgain has every folder look at the disk.
func (s *server) lookAgain() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, f := range s.folders {
		f.look()
	}
	for _, d := range s.open {
		s.place(d)
	}
	return nil
}

// A shown file is an open file beside what was read of it.
type shown struct {
	page
	name   string
	folder *folder
	*reading
}

// see reads the folder of an open file. It is false where the file belongs to none, or was
// not read as a note.
func (s *server) see(uri string) (shown, bool) {
	for range 3 { // while keys are pressed, the text may be newer than what was read
		d, ok := s.file(uri)
		if !ok {
			return shown{}, false
		}
		v := shown{name: d.name, folder: d.folder, reading: d.folder.read(s.today())}
		n := v.noteAt(v.name)
		if n == nil {
			return v, false
		}
		if v.page = s.page(v.folder, n.File); v.page.text == d.laid() {
			return v, true
		}
	}
	return shown{}, false
}

// file is an open file of a folder as it is now; false for one that is not open, or of none.
func (s *server) file(uri string) (openFile, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if d := s.open[uri]; d != nil && d.folder != nil {
		return *d, true
	}
	return openFile{}, false
}

// page is a file of a folder as the editor shows it.
func (s *server) page(f *folder, file *source.File) page {
	p := page{file: file}
	text := string(file.Typed())
	if d := s.openAt(f, file.Path); d != nil && strings.HasPrefix(d.text, byteOrderMark) {
		text, p.mark = byteOrderMark+text, len(byteOrderMark)
	}
	p.lines = linesOf(text, s.utf8)
	return p
}

// openAt is the open file of that path in a folder, as it is now, or nil.
func (s *server) openAt(f *folder, name string) *openFile {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, d := range s.open {
		if d.folder == f && d.name == name {
			now := *d
			return &now
		}
	}
	return nil
}

// address is that of a file of a folder, as the editor spells it.
func (s *server) address(f *folder, name string) string {
	if d := s.openAt(f, name); d != nil {
		return d.uri
	}
	return uriOf(filepath.Join(f.root, filepath.FromSlash(name)))
}

// pathOf is the path of a file by its address, "" for what is no file.
func pathOf(uri string) string {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" || u.Path == "" {
		return ""
	}
	p := u.Path
	if len(p) > 2 && p[0] == '/' && p[2] == ':' { // a drive of Windows
		p = p[1:]
	}
	return filepath.Clean(filepath.FromSlash(p))
}

// uriOf is the address of a file.
func uriOf(file string) string {
	p := filepath.ToSlash(file)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return (&url.URL{Scheme: "file", Path: p}).String()
}

func isFile(p string) bool {
	info, err := os.Stat(p)
	return err == nil && !info.IsDir()
}
