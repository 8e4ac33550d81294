package server

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"guidecoat/journal/measure"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/channel"
	"golang.org/x/tools/txtar"
)

var today = measure.NewDate(2026, 11, 25)

// Tests press keys faster than people do, and rest for less.
func TestMain(m *testing.M) {
	restful /= 5
	m.Run()
}

// An editor is a client for tests. It keeps the texts it has open, and what it was told of
// problems.
type editor struct {
	t   testing.TB
	dir string
	rpc *jrpc2.Client

	mu       sync.Mutex
	texts    map[string]string
	versions map[string]int32
	told     map[string]publishParams // the newest, by name
	all      []publishParams
	heard    chan struct{}
}

const card = `---
build: Example estate
currency: GBP
vat: 20%
stages:
  buying: budget 1500; purchase
  rear axle: budget 260 340 520; system suspension
  body: budget 400
---
`

// write puts the files of an archive in txtar form into a folder, with a job card.
func write(t testing.TB, dir, archive string) {
	t.Helper()
	files := txtar.Parse([]byte(archive)).Files
	if !strings.Contains("\n"+archive, "\n-- build.md --\n") {
		files = append(files, txtar.File{Name: "build.md", Data: []byte(card)})
	}
	for _, f := range files {
		p := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(p), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, f.Data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// start begins a session with a server over a build, with what the editor can do.
func start(t testing.TB, archive string, capabilities string) *editor {
	t.Helper()
	dir := t.TempDir()
	write(t, dir, archive)
	return startIn(t, dir, capabilities)
}

func startIn(t testing.TB, dir, capabilities string) *editor {
	t.Helper()
	e := &editor{t: t, dir: dir, texts: map[string]string{}, versions: map[string]int32{}, told: map[string]publishParams{}, heard: make(chan struct{}, 1)}
	theirs, ours := io.Pipe()
	back, out := io.Pipe()
	ended := make(chan bool, 1)
	go func() {
		ended <- Serve(context.Background(), theirs, out, "test", func() measure.Date { return today })
		out.Close()
	}()
	e.rpc = jrpc2.NewClient(channel.LSP(back, ours), &jrpc2.ClientOptions{OnNotify: e.hear, OnCallback: func(context.Context, *jrpc2.Request) (any, error) { return nil, nil }})
	if capabilities == "" {
		capabilities = `{}`
	}
	e.ask("initialize", json.RawMessage(`{"processId":null,"rootUri":null,"capabilities":`+capabilities+`}`), nil)
	e.notify("initialized", map[string]any{})
	t.Cleanup(func() {
		e.ask("shutdown", nil, nil)
		e.notify("exit", nil)
		select {
		case clean := <-ended:
			if !clean {
				t.Error("the server took no leave")
			}
		case <-time.After(20 * time.Second):
			t.Error("the server did not end")
		}
		e.rpc.Close()
	})
	return e
}

func (e *editor) hear(r *jrpc2.Request) {
	var p publishParams
	if r.Method() != "textDocument/publishDiagnostics" || r.UnmarshalParams(&p) != nil {
		e.t.Errorf("the server said %s", r.Method())
		return
	}
	e.mu.Lock()
	e.told[e.name(p.URI)] = p
	e.all = append(e.all, p)
	e.mu.Unlock()
	select {
	case e.heard <- struct{}{}:
	default:
	}
}

func (e *editor) uri(name string) string {
	return uriOf(filepath.Join(e.dir, filepath.FromSlash(name)))
}
func (e *editor) name(uri string) string {
	rel, err := filepath.Rel(e.dir, pathOf(uri))
	if err != nil {
		return uri
	}
	return filepath.ToSlash(rel)
}

func (e *editor) ask(method string, params, result any) {
	e.t.Helper()
	if err := e.try(method, params, result); err != nil {
		e.t.Fatalf("%s: %v", method, err)
	}
}

func (e *editor) try(method string, params, result any) error {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	r, err := e.rpc.Call(ctx, method, params)
	if err != nil || result == nil {
		return err
	}
	return r.UnmarshalResult(result)
}

func (e *editor) notify(method string, params any) {
	e.t.Helper()
	if err := e.rpc.Notify(context.Background(), method, params); err != nil {
		e.t.Fatal(err)
	}
}

// open opens a file with a text, or with what is on disk.
func (e *editor) open(name string, text ...string) {
	e.t.Helper()
	if text == nil {
		data, err := os.ReadFile(filepath.Join(e.dir, filepath.FromSlash(name)))
		if err != nil {
			e.t.Fatal(err)
		}
		text = []string{string(data)}
	}
	e.texts[name], e.versions[name] = text[0], 1
	e.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": e.uri(name), "languageId": "markdown", "version": 1, "text": text[0]}})
}

// replace changes the first place where words stand, as a keystroke does.
func (e *editor) replace(name, old, new string) {
	e.t.Helper()
	l := linesOf(e.texts[name], false)
	at := strings.Index(l.text, old)
	if at < 0 {
		e.t.Fatalf("%s does not hold %q", name, old)
	}
	r := l.between(at, at+len(old))
	e.texts[name] = l.text[:at] + new + l.text[at+len(old):]
	e.versions[name]++
	e.notify("textDocument/didChange", map[string]any{"textDocument": map[string]any{"uri": e.uri(name), "version": e.versions[name]},
		"contentChanges": []any{map[string]any{"range": r, "text": new}}})
}

// at is the place in a file where the mark | stands within words of it.
func (e *editor) at(name, words string) map[string]any {
	e.t.Helper()
	before, after, _ := strings.Cut(words, "|")
	l := linesOf(e.texts[name], false)
	at := strings.Index(l.text, before+after)
	if at < 0 {
		e.t.Fatalf("%s does not hold %q", name, before+after)
	}
	return map[string]any{"textDocument": map[string]any{"uri": e.uri(name)}, "position": l.position(at + len(before))}
}

// problems waits until what was told of a file is as wanted: its checks, in order.
func (e *editor) problems(name string, want ...string) []diagnostic {
	e.t.Helper()
	var got []string
	for until := time.Now().Add(30 * time.Second); time.Now().Before(until); {
		e.mu.Lock()
		p, ok := e.told[name]
		version := e.versions[name]
		e.mu.Unlock()
		got = nil
		for _, d := range p.Diagnostics {
			got = append(got, d.Code)
		}
		if ok && (version == 0 || p.Version != nil && *p.Version == version) && strings.Join(got, " ") == strings.Join(want, " ") {
			return p.Diagnostics
		}
		select {
		case <-e.heard:
		case <-time.After(100 * time.Millisecond):
		}
	}
	e.t.Fatalf("%s: told %q, want %q", name, got, want)
	return nil
}

// in is the text of a range of a file.
func (e *editor) in(name string, r textRange) string {
	l := linesOf(e.texts[name], false)
	return l.text[l.offset(r.Start):l.offset(r.End)]
}
