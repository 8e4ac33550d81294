package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"sync"
	"testing"
	"time"

	"guidecoat/journal/measure"

	"github.com/yuin/goldmark"
	meta "github.com/yuin/goldmark-meta"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// Each command is measured beside a floor: what the bare libraries need for the
// same bytes in the same run. The ratio of CPU times is what counts; see the table
// in DEVELOPERS.md.
//
//	go test ./cmd/guidecoat -run '^$' -bench . -benchtime 3x

// benchSizes are numbers of notes. 100,000 takes minutes and is asked for by name:
//
//	GUIDECOAT_BENCH_NOTES=100000 go test ./cmd/guidecoat -run '^$' -bench . -benchtime 1x
var benchSizes = []int{100, 1_000, 10_000}

// writeBuild writes a build of n notes of about 2.7 KB each that is free of problems.
func writeBuild(tb testing.TB, dir string, n int) {
	tb.Helper()
	r := rand.New(rand.NewPCG(1, uint64(n)))
	stages := []string{"strip", "structure", "rear axle", "body", "paint", "electrical"}
	card := "---\nbuild: Halden estate\ncurrency: GBP\nvat: 20%\nrates:\n  EUR: 0.86\nresale: 4600 5200 5600\nprofit: 800\nstages:\n"
	for _, s := range stages {
		card += "  " + s + ": budget 100 200 400\n"
	}
	write := func(name, data string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			tb.Fatal(err)
		}
	}
	write("build.md", card+"---\nAn estate, rear-ended.\n")
	day := measure.NewDate(1990, time.January, 1)
	for i := range n {
		write(fmt.Sprintf("%s-%06d.md", day, i), benchNote(r, day, i, stages[r.IntN(len(stages))]))
		if i%3 == 2 {
			day = day.AddDays(1)
		}
	}
}

// benchNote is one note: costs, time, a part, snags, a table, code and prose.
func benchNote(r *rand.Rand, day measure.Date, i int, stage string) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, "---\ndate: %s\nstage: %s\nodometer: %d km\ntime:\n  - 3h40 stripping and cleaning\n  - 19:30-21:15 second go; hands 2\ncost:\n", day, stage, 90000+i)
	fmt.Fprintf(&b, "  - %d.%02d hub seal; for part-%d; from Tidewell Dismantlers; receipt %d\n", 5+r.IntN(90), r.IntN(100), i, 20000+i)
	fmt.Fprintf(&b, "  - 2 x 6.49 copper grease; as consumables\n  - 42.00 EUR bearing kit; plus vat\n  - %d.50 filler and abrasives; as paint\n", 1+r.IntN(30))
	fmt.Fprintf(&b, "parts:\n  part-%d: fitted hub seal, left rear; new; pattern\nreadings:\n  disc-%d: 8.7 mm; min 8.0 mm\n---\n# Session %d\n\n", i, i%50, i)
	for range 4 {
		b.WriteString("The left bolt would not move, so it was heated, soaked and left for the night. In the morning it turned with a long bar and a *lot* of patience. ")
		b.WriteString("The thread in the beam is sound; the bolt is not, and goes on the list. See [the maker's sheet](https://example.org/sheet) for the torque.\n\n")
	}
	b.WriteString("| place | left | right |\n|---|---:|---:|\n| front | 3.1 mm | 3.0 mm |\n| rear | 2.2 mm | 2.4 mm |\n| spare | 6.0 mm | |\n\n")
	b.WriteString("```\npin 1  black   earth\npin 2  yellow  left\npin 3  red     stop\n```\n\n")
	b.WriteString("- the hub came off with the puller\n- the **backing plate** is thin at its lower edge, and will do\n- nothing else was found\n\n")
	fmt.Fprintf(&b, "- [ ] temporary wire-%d: hung on wire until the rubber comes; takes 20m\n- [ ] look at the pipe above the tank\n", i)
	if i >= 5 {
		fmt.Fprintf(&b, "- [x] wire-%d: rubber fitted, wire off\n", i-5)
	}
	for b.Len() < 2700 {
		b.WriteString("\nSwept up, put the tools away and wrote this down before the tea went cold.\n")
	}
	return b.String()
}

// floorMarkdown are the bare libraries with the extensions that the notes use.
var floorMarkdown = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, meta.Meta))

// floorParse reads every note and parses it, on every core.
func floorParse(tb testing.TB, paths []string) {
	next := make(chan string)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for p := range next {
				data, err := os.ReadFile(p)
				if err != nil {
					tb.Error(err)
				}
				pc := parser.NewContext()
				floorMarkdown.Parser().Parse(text.NewReader(data), parser.WithContext(pc))
				if meta.Get(pc) == nil {
					tb.Errorf("%s: no front matter", p)
				}
			}
		})
	}
	for _, p := range paths {
		next <- p
	}
	close(next)
	wg.Wait()
}

// floorPublish reads, parses, renders into a minimal layout and writes as many files.
func floorPublish(tb testing.TB, paths []string, to string) {
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				data, err := os.ReadFile(paths[i])
				if err != nil {
					tb.Error(err)
				}
				var b bytes.Buffer
				b.WriteString("<!doctype html><html lang=en><meta charset=utf-8><title>note</title><link rel=stylesheet href=style.css><main>")
				if err := floorMarkdown.Convert(data, &b); err != nil {
					tb.Error(err)
				}
				b.WriteString("</main></html>")
				if err := os.WriteFile(filepath.Join(to, fmt.Sprintf("%06d.html", i)), b.Bytes(), 0o644); err != nil {
					tb.Error(err)
				}
			}
		})
	}
	for i := range paths {
		next <- i
	}
	close(next)
	wg.Wait()
}

// measured runs a function b.N times and reports its CPU time per note.
func measured(b *testing.B, notes int, work func()) time.Duration {
	b.Helper()
	b.ReportAllocs()
	runtime.GC()
	before := cpuTime()
	for b.Loop() {
		work()
	}
	cpu := (cpuTime() - before) / time.Duration(b.N)
	b.ReportMetric(float64(cpu.Microseconds())/float64(notes), "cpu-µs/note")
	return cpu
}

// benchRun runs the program, with its own setting of the collector, and insists that it is content.
func benchRun(b *testing.B, cache string, args ...string) {
	b.Helper()
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	var out, errs bytes.Buffer
	w := world{args, bytes.NewReader(nil), &out, &errs, func(string) string { return "" }, func() time.Time { return time.Date(2126, 11, 25, 12, 0, 0, 0, time.UTC) }, cache}
	if code := run(context.Background(), w); code != exitDone {
		b.Fatalf("%v: exit code %d\n%s", args, code, errs.String())
	}
}

func BenchmarkCommands(b *testing.B) {
	for _, n := range sizes(b) {
		dir := b.TempDir()
		writeBuild(b, dir, n)
		paths, err := filepath.Glob(filepath.Join(dir, "*.md"))
		if err != nil {
			b.Fatal(err)
		}
		name := func(what string) string { return fmt.Sprintf("%s/notes=%d", what, n) }
		var floor, floorSite time.Duration
		b.Run(name("floor-parse"), func(b *testing.B) { floor = measured(b, n, func() { floorParse(b, paths) }) })
		against := func(what string, floor *time.Duration, work func(*testing.B)) {
			b.Run(name(what), func(b *testing.B) {
				cpu := measured(b, n, func() { work(b) })
				if *floor > 0 {
					b.ReportMetric(float64(cpu)/float64(*floor), "x-floor")
				}
			})
		}
		against("proofread", &floor, func(b *testing.B) { benchRun(b, "", "proofread", dir) })
		against("costs", &floor, func(b *testing.B) { benchRun(b, "", "costs", dir) })
		// Everything is written below one folder that goes away last: some file systems
		// make new files slowly just after many were deleted.
		out, cache, round := b.TempDir(), b.TempDir(), 0
		b.Run(name("floor-publish"), func(b *testing.B) {
			floorSite = measured(b, n, func() {
				round++
				to := filepath.Join(out, fmt.Sprint("floor-", round))
				if err := os.Mkdir(to, 0o755); err != nil {
					b.Fatal(err)
				}
				floorPublish(b, paths, to)
			})
		})
		var last string // the folder of the newest site
		against("publish-fresh", &floorSite, func(b *testing.B) {
			round++
			last = filepath.Join(out, fmt.Sprint(round))
			benchRun(b, cache, "publish", dir, "--to", last)
		})
		against("publish-again", &floorSite, func(b *testing.B) {
			benchRun(b, cache, "publish", dir, "--to", last)
		})
		against("publish-one-changed", &floorSite, func(b *testing.B) {
			round++
			changed, err := os.OpenFile(paths[n/2], os.O_APPEND|os.O_WRONLY, 0)
			if err == nil {
				_, err = fmt.Fprintf(changed, "\nLooked at it once more, for the %dth time.\n", round)
				err = errors.Join(err, changed.Close())
			}
			if err != nil {
				b.Fatal(err)
			}
			benchRun(b, cache, "publish", dir, "--to", last)
		})
	}
}

func sizes(b *testing.B) []int {
	var n int
	if _, err := fmt.Sscan(os.Getenv("GUIDECOAT_BENCH_NOTES"), &n); err == nil && n > 0 {
		return []int{n}
	}
	return benchSizes
}
