// Package server speaks the Language Server Protocol for the notes of a build: the whole
// program inside an editor. It is one more front of the rooms that `proofread` uses, and
// nothing in it knows what a line means.
package server

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/handler"
)

// A server answers one editor.
type server struct {
	version string
	today   func() measure.Date
	rpc     *jrpc2.Server
	ctx     context.Context

	answering atomic.Int32 // how many requests

	mu       sync.Mutex // over all below; never held while a folder is read
	begun    bool       // initialize was answered
	ending   bool       // shutdown was asked for
	over     bool       // nothing is begun any more
	exited   chan struct{}
	utf8     bool
	watching bool // the editor can be asked to tell of files
	open     map[string]*openFile
	folders  map[string]*folder
	tending  sync.WaitGroup
}

// An openFile is a file as the editor has it open.
type openFile struct {
	*lines
	uri     string
	path    string // on disk; "" where it is not of a disk
	version int32
	folder  *folder // nil where it belongs to none
	name    string  // in the folder
}

// Serve answers an editor until it says that it ends, or is gone. Clean tells whether it
// took its leave first, as the protocol wants.
func Serve(ctx context.Context, in io.Reader, out io.Writer, version string, today func() measure.Date) (clean bool) {
	ctx, stop := context.WithCancel(ctx)
	s := &server{version: version, today: today, ctx: ctx, exited: make(chan struct{}),
		open: map[string]*openFile{}, folders: map[string]*folder{}}
	s.rpc = jrpc2.NewServer(newTurns(s.handlers(), &s.answering), &jrpc2.ServerOptions{AllowPush: true, DisableBuiltin: true, Concurrency: noLimit}).Start(newStream(in, out, func() bool { return s.answering.Load() > 0 }))
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		s.rpc.Wait()
	}()
	select {
	case <-s.exited:
		s.rpc.Stop()
	case <-gone:
	case <-ctx.Done():
		s.rpc.Stop()
	}
	stop()
	s.mu.Lock()
	s.over, clean = true, s.ending
	s.mu.Unlock()
	s.tending.Wait()
	return clean
}

// start does something beside the answers, unless all is over. It is called with the lock.
func (s *server) start(work func()) {
	if !s.over {
		s.tending.Go(work)
	}
}

// handlers are the requests that are answered, by name.
func (s *server) handlers() handler.Map {
	all := handler.Map{
		"initialize":                       answered(s.initialize),
		"initialized":                      answered(s.initialized),
		"shutdown":                         answered(s.shutdown),
		"exit":                             answered(s.exit),
		"textDocument/didOpen":             answered(s.didOpen),
		"textDocument/didChange":           answered(s.didChange),
		"textDocument/didClose":            answered(s.didClose),
		"textDocument/didSave":             answered(func(p documentParams) (any, error) { return nil, s.lookAgain() }),
		"workspace/didChangeWatchedFiles":  answered(func(filesParams) (any, error) { return nil, s.lookAgain() }),
		"textDocument/hover":               answered(s.hover),
		"textDocument/inlayHint":           answered(s.inlayHints),
		"textDocument/codeAction":          answered(s.actions),
		"textDocument/completion":          answered(s.complete),
		"textDocument/definition":          answered(s.definition),
		"textDocument/references":          answered(s.references),
		"textDocument/documentHighlight":   answered(s.highlights),
		"textDocument/prepareRename":       answered(s.prepareRename),
		"textDocument/rename":              answered(s.rename),
		"textDocument/documentSymbol":      answered(s.symbols),
		"textDocument/foldingRange":        answered(s.folds),
		"textDocument/semanticTokens/full": answered(s.tokens),
		"workspace/symbol":                 answered(s.findSymbols),
	}
	for name, h := range all {
		all[name] = s.guarded(name, h)
	}
	return all
}

// answered makes a handler of a function of a request's parameters. What is no such
// parameters is answered as an error.
func answered[P any](f func(P) (any, error)) jrpc2.Handler {
	return func(_ context.Context, r *jrpc2.Request) (any, error) {
		var params P
		if r.HasParams() {
			if err := r.UnmarshalParams(&params); err != nil {
				return nil, jrpc2.Errorf(jrpc2.InvalidParams, "%v", err)
			}
		}
		return f(params)
	}
}

// guarded keeps the order that the protocol asks for, and one bad request from ending all.
func (s *server) guarded(name string, h jrpc2.Handler) jrpc2.Handler {
	return func(ctx context.Context, r *jrpc2.Request) (result any, err error) {
		defer func() {
			if fault := recover(); fault != nil {
				fmt.Fprintf(os.Stderr, "guidecoat: %s: %v\n%s", name, fault, debug.Stack())
				result, err = nil, jrpc2.Errorf(jrpc2.InternalError, "%s failed: %v", name, fault)
			}
		}()
		s.mu.Lock()
		begun, ending := s.begun, s.ending
		s.mu.Unlock()
		switch {
		case name == "exit":
		case name == "initialize" && begun:
			return nil, jrpc2.Errorf(jrpc2.InvalidRequest, "initialize was asked before")
		case name != "initialize" && !begun:
			return nil, jrpc2.Errorf(notInitialized, "%s before initialize", name)
		case ending:
			return nil, jrpc2.Errorf(jrpc2.InvalidRequest, "%s after shutdown", name)
		}
		return h(ctx, r)
	}
}

func (s *server) initialize(p initializeParams) (any, error) {
	s.mu.Lock()
	s.begun = true
	s.utf8 = slices.Contains(p.Capabilities.General.PositionEncodings, utf8Positions)
	s.watching = p.Capabilities.Workspace.DidChangeWatchedFiles.DynamicRegistration
	s.mu.Unlock()
	roots := []string{p.RootURI}
	if len(p.WorkspaceFolders) > 0 {
		roots = nil
		for _, f := range p.WorkspaceFolders {
			roots = append(roots, f.URI)
		}
	}
	for _, uri := range roots { // so that the problems of a build are there before a note is opened
		if dir := pathOf(uri); dir != "" && isFile(filepath.Join(dir, journal.CardName)) {
			s.mu.Lock()
			f := s.folder(dir, false)
			s.mu.Unlock()
			f.touch("")
		}
	}
	var result initializeResult
	result.ServerInfo.Name, result.ServerInfo.Version = "guidecoat", s.version
	encoding := utf16Positions
	if s.utf8 {
		encoding = utf8Positions
	}
	result.Capabilities = map[string]any{
		"positionEncoding":          encoding,
		"textDocumentSync":          map[string]any{"openClose": true, "change": 2, "save": true},
		"hoverProvider":             true,
		"inlayHintProvider":         true,
		"completionProvider":        map[string]any{"triggerCharacters": []string{" ", ";", ":", "-"}},
		"codeActionProvider":        map[string]any{"codeActionKinds": []string{quickFix}},
		"definitionProvider":        true,
		"referencesProvider":        true,
		"documentHighlightProvider": true,
		"renameProvider":            map[string]any{"prepareProvider": true},
		"documentSymbolProvider":    true,
		"workspaceSymbolProvider":   true,
		"foldingRangeProvider":      true,
		"semanticTokensProvider":    map[string]any{"legend": map[string]any{"tokenTypes": tokenTypes, "tokenModifiers": []string{}}, "full": true},
	}
	return result, nil
}

// initialized asks the editor to tell of notes that change on disk, if it can.
func (s *server) initialized(struct{}) (any, error) {
	s.mu.Lock()
	watching := s.watching
	s.mu.Unlock()
	if !watching {
		return nil, nil
	}
	params := json.RawMessage(`{"registrations":[{"id":"files","method":"workspace/didChangeWatchedFiles","registerOptions":{"watchers":[{"globPattern":"**/*"}]}}]}`)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.start(func() { s.rpc.Callback(s.ctx, "client/registerCapability", params) }) // one that cannot tells of nothing
	return nil, nil
}

func (s *server) shutdown(struct{}) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.ending = true
	return nil, nil
}

func (s *server) exit(struct{}) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	select {
	case <-s.exited:
	default:
		close(s.exited)
	}
	return nil, nil
}

func (s *server) didOpen(p openParams) (any, error) {
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
	d.folder.files.put(d.name, d.text)
	d.folder.look()
	d.folder.touch(d.name)
}

func (s *server) opened() []*openFile {
	var list []*openFile
	for _, uri := range sorted(s.open) {
		list = append(list, s.open[uri])
	}
	return list
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
			f.tend(s.ctx, s.today,
				func(r *reading, only map[string]bool, found []problem.Problem) { s.tell(f, r, only, found) },
				func(changes int, name string, found []problem.Problem) {
					s.tellOf(f, changes, name, found, func(string) bool { return true })
				})
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
		d.folder.files.put(d.name, d.text)
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
		s.mu.Lock()
		d := s.open[uri]
		if d == nil || d.folder == nil {
			s.mu.Unlock()
			return shown{}, false
		}
		text, v := d.text, shown{name: d.name, folder: d.folder}
		s.mu.Unlock()
		v.reading = v.folder.read(s.today())
		file := v.reading.notes()[v.name]
		if file == nil {
			return v, false
		}
		if v.page = s.page(v.folder, file); v.page.text == text {
			return v, true
		}
	}
	return shown{}, false
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
