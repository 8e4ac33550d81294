package main

import (
	"fmt"
	"net/http"
	"runtime/debug"
	"slices"
	"testing"
	"time"
)

// BenchmarkPreview measures from the moment a note is saved to the moment the page
// made of it is there again: looking, reading, making and sending. GUIDECOAT_BENCH_NOTES
// says how many notes there are.
//
//	go test ./cmd/guidecoat -run '^$' -bench Preview -benchtime 20x
func BenchmarkPreview(b *testing.B) {
	for _, n := range sizes(b) {
		b.Run(fmt.Sprintf("notes=%d", n), func(b *testing.B) { benchPreview(b, n) })
	}
}

func benchPreview(b *testing.B, n int) {
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	dir := b.TempDir()
	writeBuild(b, dir, n)
	p := &previewed{t: b, dir: dir}
	p.write("2126-11-24.md", "# First\n")
	p = startPreview(b, dir)
	versions := p.listen()
	next(b, versions)
	p.holds("sessions/2126-11-24.html", http.StatusOK, "First")
	words := []string{"The second time.", "The first time."}
	var took []time.Duration
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		time.Sleep(time.Second + time.Duration(i*7%100)*time.Millisecond) // nobody saves oftener; at any moment between two looks
		b.StartTimer()
		start := time.Now()
		p.write("2126-11-24.md", "# First\n\n"+words[i%2]+"\n")
		next(b, versions)
		p.holds("sessions/2126-11-24.html", http.StatusOK, words[i%2])
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[0]), "ms-best")
	b.ReportMetric(ms(took[len(took)/2]), "ms-median")
	b.ReportMetric(ms(took[len(took)-1]), "ms-worst")
}
