package server

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guidecoat/journal/measure"

	"github.com/creachadair/jrpc2"
)

// said is what the server says to some bytes, each after a header of its length unless it
// has one, and whether the editor took its leave.
func said(t *testing.T, messages ...string) (out string, clean bool) {
	t.Helper()
	var in, heard bytes.Buffer
	for _, m := range messages {
		if m[0] == '{' || m[0] == '[' {
			fmt.Fprintf(&in, "Content-Length: %d\r\n\r\n", len(m))
		}
		in.WriteString(m)
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		clean = Serve(context.Background(), &in, &heard, "test", func() measure.Date { return today })
	}()
	select {
	case <-done:
	case <-time.After(30 * time.Second):
		t.Fatalf("the server does not end on %.200q", messages)
	}
	return heard.String(), clean
}

// Whatever comes is answered, or is an error of the protocol, and what comes after it is
// answered too.
func TestBadMessages(t *testing.T) {
	const begin = `{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}`
	const shutdown = `{"jsonrpc":"2.0","id":99,"method":"shutdown"}`
	for name, test := range map[string]struct{ message, want string }{
		"no JSON":             {"Content-Length: 5\r\n\r\nhello", `"error":{`},
		"half JSON":           {"Content-Length: 9\r\n\r\n{\"jsonrpc", `"error":{`},
		"no header":           {"hello\r\n\r\n", `"error":{`},
		"a length of words":   {"Content-Length: five\r\n\r\n", `"error":{`},
		"a negative length":   {"Content-Length: -5\r\n\r\n", `"error":{`},
		"an immense length":   {"Content-Length: 99999999999999999999\r\n\r\n", `"error":{`},
		"too short a length":  {"Content-Length: 20\r\n\r\n" + `{"jsonrpc":"2.0","id":7,"method":"shutdown"}` + "\n", `"error":{`},
		"an unknown request":  {`{"jsonrpc":"2.0","id":7,"method":"textDocument/fly"}`, `"id":7,"error":{"code":-32601`},
		"unknown notice":      {`{"jsonrpc":"2.0","method":"$/fly"}`, `"id":99,"result":null`},
		"parameters of words": {`{"jsonrpc":"2.0","id":7,"method":"textDocument/hover","params":{"position":"up"}}`, `"id":7,"error":{"code":-32602`},
		"a file of nobody":    {`{"jsonrpc":"2.0","id":7,"method":"textDocument/hover","params":{"textDocument":{"uri":"untitled:x"},"position":{"line":4294967295,"character":4294967295}}}`, `"id":7,"result":null`},
		"a second beginning":  {begin, `"error":{`},
		"a batch":             {`[{"jsonrpc":"2.0","id":7,"method":"workspace/symbol","params":{"query":""}}]`, `"id":7,"result":[]`},
		"a change of nothing": {`{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":"file:///x.md"},"contentChanges":[{"text":"a"}]}}`, `"id":99,"result":null`},
		"an odd address":      {`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file://%zz/\u0000","text":"a"}}}`, `"id":99,"result":null`},
	} {
		out, clean := said(t, begin, test.message, shutdown, `{"jsonrpc":"2.0","method":"exit"}`)
		if !strings.Contains(out, test.want) || !strings.Contains(out, `"id":99,"result":null`) || !clean {
			t.Errorf("%s: the server says %s", name, out)
		}
	}
	if out, _ := said(t, `{"jsonrpc":"2.0","id":1,"method":"textDocument/hover"}`); !strings.Contains(out, "-32002") {
		t.Errorf("before the beginning it says %s", out)
	}
	if out, _ := said(t, begin, shutdown, `{"jsonrpc":"2.0","id":3,"method":"textDocument/hover"}`); !strings.Contains(out, "-32600") {
		t.Errorf("after the end it says %s", out)
	}
	long := &endless{left: maxMessage + 10}
	s := newStream(io.MultiReader(strings.NewReader(fmt.Sprintf("Content-Length: %d\r\n\r\n", long.left)), long, strings.NewReader("Content-Length: 2\r\n\r\n{}")), io.Discard, func() bool { return false })
	for _, want := range []string{"a message that is too long", "{}"} {
		if got, err := s.Recv(); err != nil || string(got) != want {
			t.Errorf("read %.40q, %v, want %q", got, err, want)
		}
	}
}

// An endless reader has so many bytes.
type endless struct{ left int }

func (e *endless) Read(p []byte) (int, error) {
	n := min(len(p), e.left)
	e.left -= n
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

// FuzzStream holds that any bytes are messages, each as long as its header says, and end.
func FuzzStream(f *testing.F) {
	for _, seed := range []string{"Content-Length: 2\r\n\r\n{}", "Content-Length: 2\n\n{}Content-Length: 1\r\n\r\n", "x\r\n\r\nContent-Type: a\r\nContent-Length: 0\r\n\r\n", "content-length:9\r\n\r\n"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s := newStream(bytes.NewReader(data), io.Discard, func() bool { return false })
		size := 0
		for n := 0; ; n++ {
			message, err := s.next()
			if err != nil {
				return
			}
			if size += len(message); n > len(data) || size > len(data)+(n+1)*100 {
				t.Fatalf("%q never ends", data)
			}
		}
	})
}

// tree is every file of a folder with what is in it.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		files[p] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// FuzzRequests types a text, asks everything there is to ask at a place of it, and changes
// it there. Nothing fails within, and nothing is written.
func FuzzRequests(f *testing.F) {
	for _, seed := range []string{axle, beam, "", "\ufeff---\r\n", "- [ ] job a-b: é😀\r<!-- ; --> ;waits for\n```scan abs\nC0035", "---\nstage: \xff\n---\n"} {
		f.Add(seed, uint32(3), uint32(9), "; from ")
	}
	f.Fuzz(askAll)
}

func askAll(t *testing.T, text string, line, character uint32, typed string) {
	dir := t.TempDir()
	write(t, dir, beam)
	before := tree(t, dir)
	e := startIn(t, dir, "")
	e.open("2026-04-12.md", text)
	doc := map[string]any{"uri": e.uri("2026-04-12.md")}
	at := position{line, character}
	for _, method := range []string{"hover", "completion", "definition", "references", "documentHighlight", "prepareRename", "rename", "inlayHint", "codeAction", "documentSymbol", "foldingRange", "semanticTokens/full"} {
		err := e.try("textDocument/"+method, map[string]any{"textDocument": doc, "position": at, "range": textRange{position{}, at}, "newName": typed, "context": map[string]any{}}, nil)
		if failed, ok := errors.AsType[*jrpc2.Error](err); ok && failed.Code != requestFailed {
			t.Errorf("%s of %q at %v: %v", method, text, at, err)
		}
	}
	e.notify("textDocument/didChange", map[string]any{"textDocument": doc, "contentChanges": []any{map[string]any{"range": textRange{at, position{line + 1, character / 2}}, "text": typed}}})
	if err := e.try("textDocument/documentSymbol", map[string]any{"textDocument": doc}, nil); err != nil {
		t.Error(err)
	}
	e.notify("textDocument/didClose", map[string]any{"textDocument": doc})
	if !maps.Equal(tree(t, dir), before) {
		t.Error("something was written")
	}
}
