// Package server speaks the Language Server Protocol for the notes of a build: the whole
// program inside an editor. It is one more front of the rooms that `proofread` uses, and
// nothing in it knows what a line means.
package server

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"

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
	messages := newStream(in, out, func() bool { return s.answering.Load() > 0 })
	s.mu.Lock() // a message can be answered before it is known who answers
	s.rpc = jrpc2.NewServer(newTurns(s.handlers(), &s.answering), &jrpc2.ServerOptions{AllowPush: true, DisableBuiltin: true, Concurrency: noLimit}).Start(messages)
	s.mu.Unlock()
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		s.rpc.Wait()
	}()
	select {
	case <-s.exited:
		messages.settle()
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
	capabilities := map[string]any{
		"positionEncoding":          pick.Either(s.utf8, utf8Positions, utf16Positions),
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
	return map[string]any{"capabilities": capabilities, "serverInfo": map[string]string{"name": "guidecoat", "version": s.version}}, nil
}

// initialized asks the editor to tell of notes that change on disk, if it can.
func (s *server) initialized(struct{}) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.watching {
		return nil, nil
	}
	params := json.RawMessage(`{"registrations":[{"id":"files","method":"workspace/didChangeWatchedFiles","registerOptions":{"watchers":[{"globPattern":"**/*"}]}}]}`)
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
