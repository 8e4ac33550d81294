package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/channel"
)

// BenchmarkEditor measures what somebody who types waits for, in a build of 1,000 notes:
// from a keystroke until the problems of the note are told, and until completion answers
// that is asked with the keystroke. The keys rest between some strokes, so that what is
// done then is measured too.
//
//	go test ./cmd/guidecoat -run '^$' -bench Editor -benchtime 40x
func BenchmarkEditor(b *testing.B) {
	dir := b.TempDir()
	writeBuild(b, dir, 1000)
	paths, err := filepath.Glob(filepath.Join(dir, "*-000500.md"))
	if err != nil || len(paths) != 1 {
		b.Fatal(paths, err)
	}
	text, err := os.ReadFile(paths[0])
	if err != nil {
		b.Fatal(err)
	}
	theirs, ours := io.Pipe()
	back, out := io.Pipe()
	w := world{[]string{"language-server"}, theirs, out, io.Discard, func(string) string { return "" }, func() time.Time { return time.Date(2126, 11, 25, 12, 0, 0, 0, time.UTC) }, ""}
	go func() {
		run(context.Background(), w)
		out.Close()
	}()
	told := make(chan int32, 100)
	uri := "file://" + paths[0]
	client := jrpc2.NewClient(channel.LSP(back, ours), &jrpc2.ClientOptions{OnNotify: func(r *jrpc2.Request) {
		var p struct {
			URI     string
			Version int32
		}
		if r.UnmarshalParams(&p) == nil && p.URI == uri {
			told <- p.Version
		}
	}})
	defer client.Close()
	ctx := context.Background()
	say := func(method string, params string) {
		if err := client.Notify(ctx, method, json.RawMessage(params)); err != nil {
			b.Fatal(err)
		}
	}
	wait := func(version int32) {
		for v := range told {
			if v == version {
				return
			}
		}
	}
	if _, err := client.Call(ctx, "initialize", json.RawMessage(`{"capabilities":{}}`)); err != nil {
		b.Fatal(err)
	}
	say("initialized", "{}")
	quoted, _ := json.Marshal(string(text))
	say("textDocument/didOpen", fmt.Sprintf(`{"textDocument":{"uri":%q,"version":0,"text":%s}}`, uri, quoted))
	wait(0)
	time.Sleep(2 * time.Second)
	var problems, completion, work []time.Duration
	before, version := cpuTime(), int32(0)
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		time.Sleep([]time.Duration{100, 100, 100, 700}[i%4] * time.Millisecond)
		// A line with a slip in it, of which one letter after the other is typed.
		change := `{"range":{"start":{"line":4,"character":0},"end":{"line":4,"character":0}},"text":"cost: 9.00 seal; for par\n"}`
		if i%2 == 1 {
			change = `{"range":{"start":{"line":4,"character":0},"end":{"line":5,"character":0}},"text":""}`
		}
		version++
		b.StartTimer()
		start, used := time.Now(), cpuTime()
		say("textDocument/didChange", fmt.Sprintf(`{"textDocument":{"uri":%q,"version":%d},"contentChanges":[%s]}`, uri, version, change))
		if i%2 == 0 {
			if _, err := client.Call(ctx, "textDocument/completion", json.RawMessage(fmt.Sprintf(`{"textDocument":{"uri":%q},"position":{"line":4,"character":24}}`, uri))); err != nil {
				b.Fatal(err)
			}
			completion = append(completion, time.Since(start))
		}
		wait(version)
		if i%2 == 1 {
			problems = append(problems, time.Since(start))
		}
		if i%4 == 3 { // the keys have rested
			work = append(work, cpuTime()-used)
		}
	}
	cpu := cpuTime() - before
	median := func(list []time.Duration) float64 {
		slices.Sort(list)
		return float64(list[len(list)/2].Microseconds()) / 1000
	}
	b.ReportMetric(median(problems), "ms-problems")
	b.ReportMetric(median(work), "cpu-ms-problems")
	b.ReportMetric(median(completion), "ms-completion")
	b.ReportMetric(float64(cpu.Milliseconds())/float64(b.N), "cpu-ms/key")
}
