package check

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal"
)

func TestTmpPerf(t *testing.T) {
	kinds := map[string]func(i int) string{
		"plain": func(i int) string { return "---\nstage: body\ntime: 2h x\ncost: 1.00 a; from Tidewell\n---\n" + strings.Repeat("Some words of a long day that went well enough in the end.\n\n", 40) },
		"suppliers": func(i int) string { return fmt.Sprintf("---\nstage: body\ncost: 1.00 a; from Garage Supplier %d Ltd\n---\nWent to the garage supplier. ", i) + strings.Repeat("garage supplier ", 100) },
		"missing": func(i int) string { return fmt.Sprintf("![a](p%d.jpg)\n", i) },
		"unpaid": func(i int) string { return fmt.Sprintf("---\nstage: body\nparts:\n  wing-%d: fitted wing\ncost: 1,0 x; for wing-%d\n---\n", i, i) },
		"checks": func(i int) string { return fmt.Sprintf("---\nchecks:\n  alinment: done\n---\n") },
		"html": func(i int) string { return "a <b>x</b>\n" },
		"unknownparts": func(i int) string { return fmt.Sprintf("---\nstage: body\nparts:\n  wing-%d: needed wing\ncost: 1.0 x; for ving-%d-x\n---\n", i, i) },
		"snags": func(i int) string { return fmt.Sprintf("- [ ] arch-%d-seal: x\n", i) },
		"unksnags": func(i int) string { return fmt.Sprintf("- [x] arch-%d-seal: x\n- [ ] job b-%d: y; waits for c-%d\n", i,i,i) },
		"sharp": func(i int) string { return fmt.Sprintf("- [ ] job a-%d: y; waits for a-%d\n", i,i+1) },
	}
	for name, make := range kinds {
		for _, n := range []int{1000, 2000, 4000} {
			fsys := fstest.MapFS{"build.md": {Data: []byte(exampleCard)}}
			for i := range n {
				fsys[fmt.Sprintf("%04d-01-01 %d.md", 1900+i%200, i)] = &fstest.MapFile{Data: []byte(make(i))}
			}
			a := time.Now()
			b, err := journal.ReadBuild(dirFS(t, fsys), ".")
			if err != nil {
				t.Fatal(err)
			}
			c := time.Now()
			st := b.At(0, today)
			d := time.Now()
			f := Run(st)
			fmt.Printf("%-12s %5d read+compile %6dms  At %6dms  check %6dms  %d\n", name, n, c.Sub(a).Milliseconds(), d.Sub(c).Milliseconds(), time.Since(d).Milliseconds(), len(f))
		}
	}
}
